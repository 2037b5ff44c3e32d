"""A hand that has nothing but a keyboard."""

from __future__ import annotations

from browser.pour_hand import HOLD_MS, Hand

MOST_TABS = 40
FOCUSED = """label => {
  const it = document.activeElement;
  return it.matches('input') ? it.name === label : it.textContent.trim().startsWith(label);
}"""


class KeyHand(Hand):
    """Space or Enter for what is asked, digits for what is read, Tab for the rest."""

    def touch(self, label: str, *, hold: bool = False) -> None:
        keys, seen = self.page.keyboard, self.look()
        typing = self.page.evaluate("document.activeElement.matches('input[type=text]')")
        if label != seen.main:
            self.reach(label)
        key = "Enter" if typing or label != seen.main else "Space"
        keys.down(key)
        if hold:
            self.rest(HOLD_MS)
        keys.up(key)

    def type(self, box: str, text: str) -> None:
        """Digits find the first box by themselves; the next ones are tabbed to."""
        if box != self.look().boxes[0]:
            self.reach(box)
        self.page.keyboard.type(text)

    def count(self, name: str, number: int) -> None:
        del name
        self.page.keyboard.type(str(number))

    def reach(self, label: str) -> None:
        """Tab to a control by its words, or to a box by its name."""
        for _ in range(MOST_TABS):
            self.page.keyboard.press("Tab")
            if self.page.evaluate(FOCUSED, label):
                return
        raise LookupError(f"{label!r} cannot be reached with Tab")
