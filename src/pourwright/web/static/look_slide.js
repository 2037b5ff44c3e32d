// Sliders of a page that is sent as a whole.
import { paired } from "./look_follow.js";

document.querySelectorAll("[data-slide]").forEach(paired);
