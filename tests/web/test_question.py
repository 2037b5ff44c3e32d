"""Any calculation as a form and an answer, without a browser."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

import pytest

from pourwright import wire
from pourwright.actions.catalog import CATALOG
from pourwright.base.band import Band
from pourwright.base.field import number, parts
from pourwright.base.record import Record, from_json
from pourwright.base.units import System
from pourwright.web.form import texts_of
from pourwright.web.pages import PAGES
from pourwright.web.question.form import asking
from pourwright.web.question.note import sorted_notes
from pourwright.web.question.record import asked_record
from pourwright.web.question.topic import HEADINGS, ON_DEMAND, OTHER, OWN_PAGE, heading_of, topics
from pourwright.web.question.tree import asked_tree
from pourwright.web.question.words import told
from pourwright.web.show import Settings
from pourwright.web.widget import form_view
from web.client import Client, form_in, words_in

METRIC = Settings(System.METRIC)
OFFERED = [name for name in CATALOG if name not in OWN_PAGE]
ANSWERED = [name for name in OFFERED if name not in ON_DEMAND]
WEIGHED = {"air_g": 12.1, "gained_g": 11.4, "water_c": 21, "scale_step_g": 0.1}


@pytest.fixture(scope="module")
def client(tmp_path_factory) -> Client:
    """A browser in front of a bench nobody has set up: it reads US units."""
    return Client(wire.world(tmp_path_factory.mktemp("questions") / "bench.db"))


def opened_with(client: Client, name: str, inputs: object):
    text = inputs if isinstance(inputs, str) else json.dumps(inputs)
    return client.send(f"/questions/{name}", {"inputs": text})


def asked(client: Client, name: str, fields, command: str = "ask"):
    return client.send(f"/questions/{name}", dict(fields) | {"@do": command})


def inputs_of(client: Client, name: str, fields) -> dict[str, Any]:
    found: dict[str, Any] = asked(client, name, fields, "inputs-json").json()
    return found


@pytest.mark.parametrize("name", ANSWERED)
def test_every_question_opens_with_its_example_and_answers_it(client, name):
    page = client.get(f"/questions/{name}")
    assert page.status_code == 200
    assert "What the example gives" in page.text
    assert 'class="first-value"' in page.text or "<table" in page.text
    assert "No answer" not in page.text
    # What went through the form in bench units is the example again, to the last digit.
    takes = CATALOG[name].takes
    given = from_json(takes, inputs_of(client, name, form_in(page)))
    assert given == from_json(takes, dict(CATALOG[name].example))


@pytest.mark.parametrize("name", sorted(ON_DEMAND))
def test_a_slow_question_waits_to_be_asked(client, name):
    page = client.get(f"/questions/{name}")
    assert page.status_code == 200
    assert "press Ask" in words_in(page)
    assert "check.js" not in page.text
    assert form_in(page)


@pytest.mark.parametrize(("name", "address"), OWN_PAGE.items())
def test_a_question_with_a_page_of_its_own_leads_there(client, name, address):
    answer = client.get(f"/questions/{name}")
    assert answer.status_code == 303
    assert answer.headers["location"] == address
    assert address in {page.path for page in PAGES}


def test_the_list_names_every_question_once_under_a_trade_heading(client):
    page = client.get("/questions")
    words = words_in(page)
    for name in OFFERED:
        assert page.text.count(f'href="/questions/{name}"') == 1
        assert heading_of(name) in HEADINGS
    assert "When to open the mold" in words
    assert "Filling the mold" in words
    assert "on its own page" in words
    assert all(t.heading != OTHER for t in topics(CATALOG.values()))


def test_a_subject_nobody_placed_still_has_a_heading():
    assert heading_of("tide.table") == OTHER


@pytest.mark.parametrize("name", ["nowhere", "fill.nothing"])
def test_an_unknown_question_is_not_found(client, name):
    answer = client.get(f"/questions/{name}")
    assert answer.status_code == 404
    assert "no question is called" in words_in(answer)


# Exact by definition: NIST SP 811 (2008), appendix B.8: 1 in = 25.4 mm; °F to °C: (t - 32) / 1.8.
def test_bench_units_become_the_units_of_the_calculation(client):
    page = client.get("/questions/cool.bait")
    fields = form_in(page) | {"thickest_mm": "1/2", "melt_c": "338"}
    sent = inputs_of(client, "cool.bait", fields)
    assert sent["thickest_mm"] == pytest.approx(12.7, abs=1e-9)
    assert sent["melt_c"] == pytest.approx(170, abs=1e-6)


def test_an_example_stands_as_a_caliper_reads_it(client):
    # 4 mm are 0.15748 in by the same definition; a caliper shows four decimals.
    fields = form_in(client.get("/questions/fill.hold"))
    assert fields["gates[0].thick_mm"] == "0.1575"
    assert inputs_of(client, "fill.hold", fields)["gates"][0]["thick_mm"] == 4


def test_only_the_first_figure_is_read_aloud_as_it_changes(client):
    page = client.get("/questions/fill.clamp").text
    assert page.count("aria-live") == 0
    assert page.count('role="status"') == 1
    assert (
        'role="alert"'
        not in asked(
            client,
            "body.weigh",
            form_in(client.get("/questions/body.weigh")) | {"air_g": ""},
            "try",
        ).text
    )


def test_the_answer_stands_in_bench_units(client):
    page = client.get("/questions/cool.window")
    words = words_in(page)
    # 155 °C, the coolest that still shoots; 311 °F by the same definition.
    assert form_in(page)["least_c"] == "311"
    assert "311 °F" in words.replace("\N{NO-BREAK SPACE}", " ")
    assert "least_c" not in words


def test_a_refusal_stands_at_its_field_and_nothing_typed_is_lost(client):
    fields = form_in(client.get("/questions/body.weigh")) | {"gained_g": "200", "repeat_g": "0.3"}
    answer = asked(client, "body.weigh", fields)
    assert answer.status_code == 422
    assert 'id="f-gained_g-problem"' in answer.text
    assert "did it touch the glass" in words_in(answer)
    assert "first-value" not in answer.text
    assert {k: form_in(answer)[k] for k in fields} == fields


@pytest.mark.parametrize(
    ("text", "words"),
    [("", "is missing: fill it in"), ("heavy", "is not a number"), ("9000", "must lie between")],
)
def test_what_is_typed_wrong_is_said_while_typing_and_when_asked(client, text, words):
    fields = form_in(client.get("/questions/body.weigh")) | {"air_g": text}
    for command, status in (("try", 200), ("ask", 422), ("answer-json", 422)):
        answer = asked(client, "body.weigh", fields, command)
        assert answer.status_code == status
        assert words in words_in(answer)
        assert 'href="#f-air_g"' in answer.text
        assert form_in(answer)["air_g"] == text


def test_what_has_no_answer_is_said_in_words(client):
    fields = form_in(client.get("/questions/blend.density")) | {"target_g_ml": "3"}
    answer = asked(client, "blend.density", fields)
    assert answer.status_code == 422
    assert "No answer exists: 3 g/mL cannot be reached" in words_in(answer)
    assert form_in(answer)["target_g_ml"] == "3"


def test_another_page_opens_a_question_with_its_own_numbers(client):
    given = {"air_g": 9.3456, "gained_g": 8.71, "scale_step_g": 0.01}
    page = opened_with(client, "body.weigh", given)
    assert page.status_code == 200
    assert "Your numbers" in page.text
    assert "An example" not in page.text
    fields = form_in(page)
    assert fields["air_g"] == "9.3456"
    assert fields["water_c"] == ""
    sent = inputs_of(client, "body.weigh", fields)
    assert {k: sent[k] for k in given} == given
    assert sent["water_c"] is None


def test_a_number_handed_over_stays_exact_until_it_is_changed(client):
    page = opened_with(client, "cool.bait", {"thickest_mm": 14.3333, "shape": "round"})
    fields = form_in(page)
    assert fields["thickest_mm"] == "0.5643"
    assert inputs_of(client, "cool.bait", fields)["thickest_mm"] == 14.3333
    # 0.5644 in of 25.4 mm each.
    changed = inputs_of(client, "cool.bait", fields | {"thickest_mm": "0.5644"})
    assert changed["thickest_mm"] == pytest.approx(14.33576, abs=1e-9)


@pytest.mark.parametrize(
    ("inputs", "words", "anchor"),
    [
        ("{", "is not JSON", ""),
        ("[1]", "must be a JSON object", ""),
        ('{"air_g": 1, "air_g": 2}', "is given twice", "f-air_g"),
        (WEIGHED | {"gained_g": 600}, "must lie between 0.05 and 500 g", "f-gained_g"),
        (WEIGHED | {"gained_g": "much"}, "must be a number", "f-gained_g"),
        (WEIGHED | {"color": "red"}, "is not known here", ""),
        ({"air_g": 12.1}, "is required", "f-gained_g"),
    ],
)
def test_numbers_that_do_not_fit_are_refused_by_field(client, inputs, words, anchor):
    page = opened_with(client, "body.weigh", inputs)
    assert page.status_code == 200
    assert words in words_in(page)
    assert (f'href="#{anchor}"' in page.text) == bool(anchor)
    assert "first-value" not in page.text
    if isinstance(inputs, dict):
        assert form_in(page)["air_g"] == "12.1"


def test_an_address_may_carry_plain_values_in_the_unit_of_their_name(client):
    page = client.get("/questions/cool.bait?thickest_mm=25.4&shape=flat&open_face=true")
    fields = form_in(page)
    assert fields["thickest_mm"] == "1"
    assert fields["shape"] == "flat"
    assert fields["open_face"] == "on"
    assert "first-value" in page.text
    assert "Your numbers" in page.text


@pytest.mark.parametrize(
    ("query", "words"),
    [
        ("thickest_mm=thick", "is not a number"),
        ("depth=3", "is not known here"),
        ("thickest_mm=nan", "must be a finite number"),
        ("thickest_mm=12&shape=cube", "must be one of"),
        ("thickest_mm=12&open_face=perhaps", "cannot be given in an address"),
    ],
)
def test_an_address_that_does_not_fit_is_refused_in_words(client, query, words):
    page = client.get(f"/questions/cool.bait?{query}")
    assert page.status_code == 200
    assert words in words_in(page)
    assert "first-value" not in page.text


def test_a_range_goes_along_while_its_number_stays(client):
    page = client.get("/questions/shop.price")
    example = CATALOG["shop.price"].example["cost_money"]
    assert "Stands for $0.55 to $0.78" in words_in(page)
    fields = form_in(page)
    assert inputs_of(client, "shop.price", fields)["cost_money"] == example
    changed = fields | {"cost_money": "0.70"}
    assert inputs_of(client, "shop.price", changed)["cost_money"] == 0.7
    assert "Stands for" not in words_in(asked(client, "shop.price", changed))


def test_a_range_in_a_row_goes_along_too(client):
    used = {"low": 320.0, "typical": 336.0, "high": 368.0}
    given = dict(CATALOG["shop.batch_cost"].example)
    given["items"] = [{"name": "plastic", "used_g": used, "price_per_kg_money": 11.6}]
    page = opened_with(client, "shop.batch_cost", given)
    assert "Stands for 320 to 368" in words_in(page).replace("\N{NO-BREAK SPACE}", " ")
    sent = inputs_of(client, "shop.batch_cost", form_in(page))
    assert sent["items"][0]["used_g"] == used


def test_what_no_hand_types_is_carried_along_unseen(client):
    learned = CATALOG["oven.coupling"].answer({"label_w": 700})["belief"]
    given = dict(CATALOG["cook.next_burst"].example) | {"prior": learned}
    del given["label_w"]
    page = opened_with(client, "cook.next_burst", given)
    assert "Carried along" in page.text
    fields = form_in(page)
    answer = asked(client, "cook.next_burst", fields, "answer-json").json()
    assert answer == CATALOG["cook.next_burst"].answer(given)
    torn = asked(client, "cook.next_burst", fields | {"prior": "{"})
    assert torn.status_code == 422
    assert "cannot be read back" in words_in(torn)


def test_rows_of_several_kinds_can_be_typed_and_refused_at_their_box(client):
    fields = form_in(client.get("/questions/fill.clamp"))
    assert fields["clamps[0].one.kind"] == "bolt"
    wrong = asked(client, "fill.clamp", fields | {"clamps[0].one.bolt_mm": "7000"})
    assert wrong.status_code == 422
    assert 'id="f-clamps-0-one-bolt_mm-problem"' in wrong.text
    more = asked(client, "fill.clamp", fields, "add:clamps")
    two = form_in(more)
    assert two["clamps#"] == "2"
    other = next(k for k in ("cam", "toggle", "screw", "weight", "hand") if f'"{k}"' in more.text)
    chosen = asked(client, "fill.clamp", two | {"clamps[1].one.kind": other})
    assert chosen.status_code == 200
    assert form_in(chosen)["clamps[1].one@"] == other
    assert "Press Ask." in chosen.text
    assert "first-value" not in chosen.text
    refused = opened_with(
        client,
        "fill.clamp",
        dict(CATALOG["fill.clamp"].example) | {"clamps": [{"kind": "bolt", "bolt_mm": 7000}]},
    )
    assert 'href="#f-clamps-0-one-bolt_mm"' in refused.text


def test_a_choice_may_be_left_open(client):
    page = client.get("/questions/body.measure")
    fields = form_in(page)
    assert fields["unit"] == fields["placing.pull"] == ""
    assert "not said" in page.text
    assert inputs_of(client, "body.measure", fields)["placing"]["pull"] is None
    chosen = asked(client, "body.measure", fields | {"unit": "cm"})
    assert form_in(chosen)["unit"] == "cm"


def test_rows_are_added_without_a_script_and_empty_ones_do_not_count(client):
    page = client.get("/questions/thermometer.check")
    fields = form_in(page)
    before = int(fields["boiling_c#"])
    more = form_in(asked(client, "thermometer.check", fields, "add:boiling_c"))
    assert int(more["boiling_c#"]) == before + 1
    assert len(inputs_of(client, "thermometer.check", more)["boiling_c"]) == before
    wrong = more | {"boiling_c[0]": "", f"boiling_c[{before}]": "hot"}
    answer = asked(client, "thermometer.check", wrong)
    assert f'id="f-boiling_c-{before}-problem"' in answer.text


@pytest.mark.parametrize(("command", "ending"), [("answer", "answer"), ("inputs", "input")])
def test_answer_and_numbers_can_be_kept_as_files(client, command, ending):
    fields = form_in(client.get("/questions/body.weigh"))
    file = asked(client, "body.weigh", fields, f"{command}-json")
    assert f'filename="body.weigh.{ending}.json"' in file.headers["content-disposition"]
    found = file.json() if ending == "answer" else CATALOG["body.weigh"].answer(file.json())
    assert found == CATALOG["body.weigh"].answer(WEIGHED)


def test_a_file_is_named_with_its_size_but_never_comes_first(client):
    page = client.get("/questions/body.filling")
    assert '<p class="first-value">a file of' not in page.text
    assert "KB, in the JSON" in words_in(page)


def test_the_caution_stands_above_the_answer(client):
    page = client.get("/questions/fill.clamp").text
    assert page.index("Hot plastic under pressure") < page.index("first-value")
    assert "Lead is a poison" in client.get("/questions/swim.sink").text
    assert 'class="caution"' not in client.get("/questions/color.difference").text


def test_sources_and_the_command_line_stand_under_the_answer(client):
    page = client.get("/questions/body.weigh")
    assert "pourwright calc body.weigh &lt; body.weigh.input.json" in page.text
    assert "published : Archimedes, On Floating Bodies" in words_in(page)


def test_markup_that_is_typed_is_shown_not_run(client):
    page = client.get("/questions/shop.check_code?code=%22%3E%3Cb%3E")
    assert '"><b>' not in page.text
    assert "&lt;b&gt;" in page.text


def test_notes_are_told_apart():
    weigh = CATALOG["body.weigh"]
    notes = sorted_notes(
        (
            "water_c was left out: typical 21 °C (16 to 26) stands in. To replace it, read it.",
            "dye: strength was left out: typical 1 (0.4 to 2.5) stands in.",
            "volume_ml: the range comes mostly from scale_step_g (80%), bubbles (12%).",
            "volume_ml: to narrow it, weigh several baits at once.",
            "density_g_ml: to narrow it, weigh several baits at once.",
            "keep it dry; ask blend.density.",
        ),
        weigh.takes, weigh.gives, Settings(),
    )  # fmt: skip
    assert [(s.label, s.value, s.range, s.measure) for s in notes.stand_ins] == [
        # 21, 16 and 26 °C in °F, by the definition above.
        ("Temperature of the water", "70\N{NO-BREAK SPACE}°F", "61 to 79\N{NO-BREAK SPACE}°F",
         "Read it"),
        ("Dye: strength", "1", "0.4 to 2.5", ""),
    ]  # fmt: skip
    assert [(n.label, n.words) for n in notes.narrow] == [
        ("Volume, density", "Weigh several baits at once.")
    ]
    assert notes.widen[0].words == "Mostly from smallest step of the scale (80%), bubbles (12%)."
    assert notes.mind == ("Keep it dry; ask “salt or hollow glass for a density”.",)


@pytest.mark.parametrize(
    ("name", "value", "words", "ends"),
    [
        ("wait_s", Band(90, 120, 150), "2:00 min", "1:30 to 2:30 min"),
        ("wait_s", 59.4, "59.4 s", ""),
        ("wait_s", 272, "4:32 min", ""),
        ("fill_share", Band(0.88, 0.94, 0.96), "94 %", "88 to 96 %"),
        ("odds", 0.012, "1.2 %", ""),
        ("odds", 0.0, "0 %", ""),
        ("odds", 1e-12, "under 0.1 %", ""),
        ("share", 0.5, "50 %", ""),
        ("shares_sold", 12.5, "12.5", ""),
        ("flakes_per_cm2", 82.1, "82.1", ""),
        ("shadow_cm2", 38.0, "38 cm²", ""),
        ("length_mm", 12.3456, "12.3 mm", ""),
        ("length_mm", 1e-9, "under 0.0001 mm", ""),
        ("lengths_mm", (1.0, 2.5), "1 mm, 2.5 mm", ""),
        ("floats", True, "yes", ""),
        ("cost_money", 15.2839, "$15.28", ""),
        ("mesh", "A" * 4000, "a file of 3 KB, in the JSON", ""),
    ],
)
def test_values_are_told_as_people_read_them(name, value, words, ends):
    found = told(name, value, METRIC)
    assert found.value.replace("\N{NO-BREAK SPACE}", " ") == words
    assert found.range.replace("\N{NO-BREAK SPACE}", " ") == ends


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece(Record):
    length_mm: float = number("Length", low=0, high=100)


@dataclass(frozen=True, slots=True, kw_only=True)
class Way(Record):
    way: tuple[Piece, ...] = parts("The way", least=1)
    log: tuple[Piece, ...] = parts("Log", most=2000)
    curve: tuple[float, ...] = parts("Curve", most=31)


def _asking(changed: tuple[str, ...] = ()):
    given = {"way": [{"length_mm": 2.5}] * 30, "log": [{"length_mm": 1}], "curve": [1, 2, 5]}
    tree = asked_tree(Way, given)
    typed = texts_of(asked_record(Way), tree, System.METRIC)
    form = form_view(
        asked_record(Way), typed, problems={}, settings=METRIC, references=lambda _: ()
    )
    return asking(Way, form, given, changed, METRIC)


def test_a_long_list_is_one_line_until_it_is_opened():
    folded = _asking()
    assert folded.folded == {"way": "30 rows, 75.0 mm in all"}
    assert folded.unfolded == frozenset()
    assert [(c.path, c.summary, c.text) for c in folded.carried] == [
        ("log", "1 of them", '[{"length_mm":1}]'),
        ("curve", "3 numbers, 1 to 5", "[1,2,5]"),
    ]
    assert _asking(("way[3].length_mm",)).unfolded == {"way"}
