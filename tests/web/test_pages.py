"""Every page opens, every form goes round, and nothing that was refused is kept."""

from __future__ import annotations

import re

import pytest

from pourwright.actions.demo import demo_nouns
from pourwright.actions.port import World
from pourwright.base.units import System
from pourwright.shop.look import Dose, Look, LookLayer
from pourwright.shop.mold import Bait, Mold
from pourwright.shop.nouns import NOUNS
from pourwright.shop.tool import Cup
from pourwright.shop.workplace import Workplace
from pourwright.web.pages.record_list import BAITS, LOOKS, SHELF, WORKPLACE
from web.client import Client, form_in, words_in

LISTS = [page.path for page in (LOOKS, BAITS, SHELF, WORKPLACE)]
DEMO = demo_nouns()


def put(world: World, noun, key: str) -> None:
    with world.bench() as bench:
        bench.records.save(noun.key, key, noun, expected_version=0)
        bench.commit()


def kept(world: World, sort: str):
    with world.bench() as bench:
        return {s.id: s.noun for s in bench.records.all(sort)}


def set_units(world: World, system: System) -> None:
    with world.bench() as bench:
        place = bench.records.get("workplace", "workplace")
        noun = Workplace(name="Test bench", units=system)
        bench.records.save("workplace", "workplace", noun, expected_version=place.version)
        bench.commit()


@pytest.mark.parametrize("path", [*LISTS, *(f"/records/{sort}/new" for sort in NOUNS)])
def test_every_page_opens_on_an_empty_store(empty_world, path):
    page = Client(empty_world).get(path)
    assert page.status_code == 200
    assert "<h1>" in page.text


@pytest.mark.parametrize("key", DEMO)
def test_every_page_of_every_record_opens_on_a_full_store(full_world, key):
    client = Client(full_world)
    for tail in ("", "/history", "/retire"):
        page = client.get(f"/records/{DEMO[key].key}/{key}{tail}")
        assert page.status_code == 200
        assert DEMO[key].name.split()[0] in page.text


@pytest.mark.parametrize("path", LISTS)
def test_every_list_names_what_the_bench_has(full_world, path):
    words = words_in(Client(full_world).get(path))
    for noun in DEMO.values():
        if f"/{noun.place}" == path:
            assert noun.name in words


@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("key", DEMO)
def test_a_form_saved_untouched_changes_nothing(full_world, key, system):
    set_units(full_world, system)
    sort = DEMO[key].key
    before = kept(full_world, sort)[key]
    client = Client(full_world)
    answer = client.send(f"/records/{sort}/{key}", form_in(client.get(f"/records/{sort}/{key}")))
    assert answer.status_code == 303, words_in(answer)
    assert kept(full_world, sort)[key] == before


@pytest.mark.parametrize("key", [k for k, n in DEMO.items() if not isinstance(n, Workplace)])
def test_a_record_typed_into_a_new_form_is_the_same_record(full_world, key):
    """What one form shows, typed into an empty one, makes an equal record."""
    noun = DEMO[key]
    client = Client(full_world)
    typed = form_in(client.get(f"/records/{noun.key}/{key}")) | {"@version": "0"}
    answer = client.send(f"/records/{noun.key}/new", typed)
    assert answer.status_code == 303, words_in(answer)
    same_name = [n for n in kept(full_world, noun.key).values() if n.name == noun.name]
    assert len(same_name) == 2


def test_a_refused_form_keeps_what_was_typed_and_stores_nothing(full_world):
    client = Client(full_world)
    before = kept(full_world, "mold")
    typed = form_in(client.get("/records/mold/new"))
    answer = client.send(
        "/records/mold/new",
        typed | {"name": "Mine & yours", "cavities": "-3", "mass_g": "heavy", "bait": ""},
    )
    assert answer.status_code == 422
    again = form_in(answer)
    assert (again["name"], again["cavities"], again["mass_g"]) == ("Mine & yours", "-3", "heavy")
    words = words_in(answer)
    for why in ("must lie between 1 and 60", "is not a number", "is missing: fill it in"):
        assert why in words
    assert kept(full_world, "mold") == before


def test_a_mold_without_its_bait_is_refused(empty_world):
    client = Client(empty_world)
    typed = form_in(client.get("/records/mold/new"))
    answer = client.send(
        "/records/mold/new", typed | {"name": "M", "cavities": "2", "bait": "nowhere"}
    )
    assert answer.status_code == 422
    assert "is not on the bench" in words_in(answer)
    assert kept(empty_world, "mold") == {}


def test_a_record_changed_meanwhile_is_a_kind_conflict(full_world):
    client = Client(full_world)
    address = "/records/cup/demo-cup-pint"
    mine = form_in(client.get(address))
    theirs = dict(mine) | {"name": "Their name"}
    assert client.send(address, theirs).status_code == 303
    answer = client.send(address, mine | {"name": "My name"})
    assert answer.status_code == 409
    assert form_in(answer)["name"] == "My name"
    assert "stored now Their name, typed My name" in words_in(answer)
    assert kept(full_world, "cup")["demo-cup-pint"].name == "Their name"
    assert client.send(address, form_in(answer)).status_code == 303
    assert kept(full_world, "cup")["demo-cup-pint"].name == "My name"


def test_rows_are_added_and_removed_without_a_script(full_world):
    client = Client(full_world)
    address = "/records/look/demo-look-shad"
    typed = form_in(client.get(address))
    more = form_in(client.send(address, typed | {"@do": "add:layers[0].doses"}))
    assert more["layers[0].doses#"] == "3"
    assert more["layers[0].doses[2].material"] == ""
    less = form_in(client.send(address, more | {"@do": "remove:layers[0].doses[0]"}))
    assert less["layers[0].doses#"] == "2"
    assert less["layers[0].doses[0].material"] == "demo-flake-copper"
    assert kept(full_world, "look")["demo-look-shad"] == DEMO["demo-look-shad"]


def test_a_kind_is_chosen_without_a_script(empty_world):
    client = Client(empty_world)
    typed = form_in(client.get("/records/bait/new")) | {"name": "B", "shape.kind": "tube"}
    shown = client.send("/records/bait/new", typed)
    assert shown.status_code == 200
    assert kept(empty_world, "bait") == {}
    assert client.send("/records/bait/new", form_in(shown)).status_code == 303
    (bait,) = kept(empty_world, "bait").values()
    assert bait.shape.key == "tube"


def test_a_bait_that_a_mold_needs_stays(full_world):
    client = Client(full_world)
    address = "/records/bait/demo-bait-worm/retire"
    assert "Still needed by Marsh worm mold" in words_in(client.get(address))
    answer = client.send(address, {"@version": "1"})
    assert answer.status_code == 409
    assert "demo-bait-worm" in kept(full_world, "bait")


def test_a_record_taken_off_leaves_the_lists_and_keeps_its_history(full_world):
    client = Client(full_world)
    address = "/records/gear/demo-gear-gloves"
    assert client.send(f"{address}/retire", form_in_retire(client, address)).status_code == 303
    assert "demo-gear-gloves" not in kept(full_world, "gear")
    assert client.get(address).headers["location"] == f"{address}/history"
    assert "Taken off" in words_in(client.get(f"{address}/history"))
    assert "Taken off (1)" in words_in(client.get("/workplace"))


def form_in_retire(client: Client, address: str) -> dict[str, str]:
    assert "leaves the lists" in words_in(client.get(f"{address}/retire"))
    return {"@version": "1"}


def test_the_history_says_what_changed(full_world):
    client = Client(full_world)
    address = "/records/look/demo-look-marsh"
    typed = form_in(client.get(address)) | {"layers[0].doses[0].per_100g": "7,5"}
    assert client.send(address, typed).status_code == 303
    words = words_in(client.get(f"{address}/history"))
    assert "Layers 1: Recipe for 100 g 1: Amount to 100 g of plastic: 6 → 7.5" in words
    assert words.index("Changed") < words.index("Added")


def test_a_second_workplace_is_refused(full_world):
    client = Client(full_world)
    typed = form_in(client.get("/records/workplace/workplace")) | {"@version": "0"}
    assert client.send("/records/workplace/new", typed).status_code == 409
    assert len(kept(full_world, "workplace")) == 1


def test_what_is_wet_or_unmeasured_is_marked(empty_world):
    put(empty_world, Cup(name="Wet cup", volume_ml=473.0, wet=True), "c1")
    words = words_in(Client(empty_world).get("/workplace"))
    assert "Wet since the last use: dry it before plastic goes in" in words
    assert "2 typical values, not measured" in words
    assert "Weigh the empty cup." in words


def test_a_bait_shows_its_outline_and_its_volume(full_world):
    page = Client(full_world).get("/baits")
    assert page.text.count('<svg class="outline"') == 2
    # The glass gained 11.4 g of water, 1.002 g/mL warm: 11.4 mL within the scale's step.
    assert re.search(r"Volume 11\.4[0-9]? mL", words_in(page).replace("\xa0", " "))


def test_a_look_shows_each_layer_over_white_and_dark(full_world):
    page = Client(full_world).get("/records/look/demo-look-shad")
    assert "back: over white left, over dark right" in page.text
    assert "belly: over white left, over dark right" in page.text


def test_a_look_whose_material_is_gone_still_opens(empty_world):
    layer = LookLayer(share=1.0, doses=(Dose(material="gone", per_100g=2),))
    put(empty_world, Look(name="Orphan", layers=(layer,)), "l1")
    words = words_in(Client(empty_world).get("/looks"))
    assert "no longer there" in words
    assert "Uncalibrated" not in words


def test_markup_in_a_name_is_shown_not_run(empty_world):
    put(empty_world, Bait(name="<script>alert(1)</script>", mass_g=9.0), "b1")
    put(empty_world, Mold(name="M", bait="b1", cavities=2), "m1")
    client = Client(empty_world)
    for path in ("/baits", "/records/bait/b1", "/records/mold/m1", "/records/bait/b1/history"):
        assert "<script>alert" not in client.get(path).text


def test_no_page_carries_inline_script_or_style(full_world):
    client = Client(full_world)
    for path in [*LISTS, "/records/look/demo-look-shad", "/records/bait/new", "/nowhere"]:
        text = client.get(path).text
        assert " style=" not in text
        assert "<style" not in text
        assert text.count("<script") == text.count("<script src=") + text.count(
            '<script type="module" src='
        )


def test_the_nav_marks_where_one_is(full_world):
    text = Client(full_world).get("/shelf").text
    assert '<a href="/shelf" aria-current="page">' in text
    text = Client(full_world).get("/shapes").text
    assert '<a href="/baits" aria-current="page">' in text


@pytest.mark.parametrize("path", ["/records/nothing/new", "/records/cup/nowhere", "/nowhere"])
def test_what_is_not_there_is_said_in_both_shapes(full_world, path):
    client = Client(full_world)
    page = client.get(path)
    assert page.status_code == 404
    assert "Nothing here" in page.text
    plain = client.get(path, accept="application/json")
    assert plain.status_code == 404
    assert plain.json()["error"] == "not_found"
