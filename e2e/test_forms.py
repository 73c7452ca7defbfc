"""Asking: what a person types, taps and chooses, and that the answer on the page always belongs to the numbers on it."""

from __future__ import annotations

import re

import pytest
from conftest import eventually
from playwright.sync_api import Page, expect

from hands import Visit

pytest_plugins = ("visits",)
WIRE, TOOL = "wire/wire-for-run/", "run/tool-on-outlet/"
# The example's answer there is a no, which one change clears.
BACKING = "roll/backing/"
LENGTH, SIZE, AMPS = "Length of the run, one way", "Conductor size", "Amps on the plate"


def test_typing_answers_at_once_and_says_what_it_was_worked_for(visit: Visit) -> None:
    seen = visit(WIRE)
    expect(seen.page.locator(".whose")).to_have_text("Worked for the example numbers:")
    seen.tell(LENGTH, "400")
    seen.expect_verdict("no")
    seen.expect_echo(LENGTH, "400 ft")
    expect(seen.page.locator(".whose")).to_have_text("Worked for:")


def test_the_live_region_stays_the_same_and_holds_the_verdict_alone(visit: Visit) -> None:
    """ARIA's status role: the region must be there before its text changes; what is swapped out is not heard."""
    seen = visit(WIRE)
    region = seen.say.element_handle()
    before = seen.say.inner_text()
    seen.tell(LENGTH, "400")
    seen.expect_verdict("no")
    assert region.evaluate("node => node.isConnected && node === document.querySelector('[role=status]')")
    assert seen.say.inner_text() != before
    assert seen.page.locator("[role=status] :is(.line, .caution, .given, ol)").count() == 0


def test_the_fixes_and_the_working_come_a_moment_later_and_never_stand_beside_a_newer_answer(visit: Visit) -> None:
    """They take trials. Until they come, those of the older numbers keep their room and are not to be seen."""
    seen = visit(WIRE)
    seen.page.evaluate(
        """() => {
          window.together = [];
          new MutationObserver(() => {
            const shown = (part) => getComputedStyle(part).visibility === "visible";
            const answered = document.querySelector(".given b") && document.getElementById("echo").textContent;
            window.together.push([answered.includes("400"), shown(document.getElementById("fixes")), document.getElementById("fixes").textContent.trim() !== ""]);
          }).observe(document, { attributes: true, childList: true, subtree: true });
        }"""
    )
    seen.tell(LENGTH, "400")
    seen.expect_verdict("no")
    expect(seen.page.locator("#fixes .fix").first).to_be_visible()
    expect(seen.page.locator("#working")).to_contain_text("400")
    together = seen.page.evaluate("() => window.together")
    answered = [(shown, fixes) for new, shown, fixes in together if new]
    assert (False, False) in answered, "the answer was there before its fixes, and nothing stood in their place"
    assert answered[-1] == (True, True)


def test_an_edit_marks_the_answer_out_of_date_within_a_tenth_of_a_second(visit: Visit) -> None:
    """Also before Python has started: here it never gets the chance to answer."""
    seen = visit(WIRE)
    waited = seen.field(LENGTH).evaluate(
        """field => new Promise((done) => {
          const start = performance.now();
          field.value = "12x";
          field.dispatchEvent(new Event("input", { bubbles: true }));
          const look = () => document.getElementById("stale").hidden ? setTimeout(look, 5) : done(performance.now() - start);
          look();
        })"""
    )
    assert waited < 100
    seen.expect_stale()


def test_what_cannot_be_read_is_left_alone_while_typing_and_explained_at_the_button(visit: Visit) -> None:
    seen = visit(WIRE)
    seen.tell(LENGTH, "12x")
    seen.expect_stale()
    expect(seen.problems).to_be_empty()

    seen.work_out()
    expect(seen.problems).to_be_focused()
    expect(seen.page).to_have_title(re.compile("^Error: "))
    link = seen.problems.get_by_role("link")
    words = link.inner_text()
    assert LENGTH in words
    expect(seen.page.locator("#run_length-error")).to_have_text(re.compile(f"{re.escape(words)}$"))
    expect(seen.field(LENGTH)).to_have_value("12x")
    seen.expect_stale()

    link.tap()
    expect(seen.field(LENGTH)).to_be_focused()
    label = seen.page.locator("label[for=run_length]").bounding_box()
    assert label and -1 <= label["y"] < 844, "the label is in view, not only its field"

    seen.tell(LENGTH, "25")
    seen.expect_verdict("go")
    expect(seen.problems).to_be_empty()
    expect(seen.page).to_have_title(re.compile("^(?!Error)"))


def test_every_problem_is_told_at_once(visit: Visit) -> None:
    seen = visit(TOOL)
    seen.tell(AMPS, "1,500")
    seen.tell("Breaker of the outlet", "")
    seen.work_out()
    expect(seen.problems.get_by_role("link")).to_have_count(2)


def test_a_problem_under_a_folded_heading_is_unfolded_by_its_link(visit: Visit) -> None:
    seen = visit(WIRE)
    folded = seen.page.locator(".assumed")
    name = folded.locator(".ask:not([hidden]) .box input").first.get_attribute("name")
    folded.locator("summary").tap()
    seen.page.locator(f"#{name}").fill("12x")
    folded.locator("summary").tap()
    seen.work_out()
    seen.problems.get_by_role("link").tap()
    expect(seen.page.locator(f"#{name}")).to_be_focused()


def test_what_another_choice_puts_away_is_not_asked_and_cannot_stop_the_answer(visit: Visit) -> None:
    seen = visit(TOOL)
    seen.tell(AMPS, "12x")
    seen.expect_stale()
    seen.choose("What its plate says", "watts")
    expect(seen.field(AMPS)).to_be_hidden()
    seen.work_out()
    seen.expect_fresh()
    expect(seen.problems).to_be_empty()
    assert AMPS not in seen.echo()


def test_no_is_an_answer_with_fixes_and_a_fix_is_one_tap(visit: Visit) -> None:
    seen = visit(BACKING)
    seen.expect_verdict("no")
    assert seen.page.locator(".error:not(:empty), .problems:not(:empty)").count() == 0
    expect(seen.page).to_have_title(re.compile("^(?!Error)"))
    seen.page.locator("#fixes a").first.tap()
    expect(seen.say).to_have_attribute("data-verdict", re.compile("go|tight"))
    expect(seen.say).to_be_focused()
    assert seen.page.locator("#fixes a").count() == 0


def test_back_takes_a_fix_away_again(visit: Visit) -> None:
    seen = visit(BACKING)
    example = seen.fields()
    seen.page.locator("#fixes a").first.tap()
    expect(seen.say).to_have_attribute("data-verdict", re.compile("go|tight"))
    fixed = seen.fields()
    assert fixed != example
    seen.page.go_back()
    seen.expect_verdict("no")
    assert seen.fields() == example
    seen.page.go_forward()
    expect(seen.say).to_have_attribute("data-verdict", re.compile("go|tight"))
    assert seen.fields() == fixed


def test_back_goes_from_one_worked_answer_to_the_one_before(visit: Visit) -> None:
    seen = visit(WIRE)
    for length in ("100", "400"):
        seen.tell(LENGTH, length)
        seen.work_out()
        expect(seen.say).to_be_focused()
        seen.expect_echo(LENGTH, f"{length} ft")
    seen.page.go_back()
    seen.expect_echo(LENGTH, "100 ft")
    expect(seen.field(LENGTH)).to_have_value("100")
    seen.page.go_back()
    expect(seen.page.locator(".whose")).to_have_text("Worked for the example numbers:")


def test_a_link_carries_its_question(visit: Visit) -> None:
    seen = visit(WIRE + "?run_length=400&size=6+AWG")
    expect(seen.field(LENGTH)).to_have_value("400")
    expect(seen.field(SIZE)).to_have_value("6 AWG")
    seen.expect_echo(LENGTH, "400 ft")
    seen.expect_fresh()
    assert seen.echo()[SIZE] == "6 AWG"


def test_a_link_with_a_number_that_cannot_be_read_never_passes_for_answered(visit: Visit) -> None:
    seen = visit(WIRE + "?run_length=12x")
    expect(seen.field(LENGTH)).to_have_value("12x")
    seen.page.wait_for_timeout(1500)
    seen.expect_stale()


@pytest.mark.parametrize("again", ["reload", "leave and come back"])
def test_a_page_that_is_shown_again_answers_for_what_its_fields_hold(visit: Visit, again: str) -> None:
    """A browser may put chosen options back by itself, after the page came with the example's answer."""
    seen = visit(WIRE)
    seen.choose(SIZE, "4 AWG")
    seen.tell(LENGTH, "150")
    seen.expect_echo(SIZE, "4 AWG")
    if again == "reload":
        seen.page.reload()
    else:
        seen.page.get_by_role("link", name="Barrowatt").tap()
        seen.page.wait_for_url(re.compile("/$"))
        seen.page.go_back()
    seen.expect_echo(SIZE, "4 AWG")
    seen.expect_echo(LENGTH, "150 ft")
    assert {"size": "4 AWG", "run_length": "150"}.items() <= seen.fields().items()


def test_start_again_and_undo(visit: Visit) -> None:
    """Nothing is lost on one tap: screens fire by themselves when they are wet."""
    seen = visit(WIRE)
    example = seen.fields()
    seen.tell(LENGTH, "400")
    seen.choose(SIZE, "8 AWG")
    seen.expect_echo(SIZE, "8 AWG")
    mine = seen.fields()
    seen.tap("Start again from the example")
    expect(seen.page.locator(".whose")).to_have_text("Worked for the example numbers:")
    assert seen.fields() == example
    seen.tap("Undo: put my numbers back")
    seen.expect_echo(LENGTH, "400 ft")
    assert seen.fields() == mine


def test_units_change_how_numbers_are_shown_and_not_what_they_are(visit: Visit) -> None:
    seen = visit(WIRE)
    seen.tell(LENGTH, "75")
    seen.expect_echo(LENGTH, "75 ft")
    verdict = seen.say.get_attribute("data-verdict")
    lost = seen.page.locator(".results div", has_text="Volts lost").locator("dd").inner_text()
    seen.choose("Units", "Metric: m, km, °C")
    expect(seen.field(LENGTH)).to_have_value("75 ft")
    seen.expect_fresh()
    assert seen.say.get_attribute("data-verdict") == verdict
    assert seen.page.locator(".results div", has_text="Volts lost").locator("dd").inner_text() == lost
    assert seen.page.locator("label[for=run_length]").inner_text().endswith("in metres")

    seen.more(LENGTH)
    expect(seen.field(LENGTH)).to_have_value("76 ft")

    seen.tap("Start again from the example")
    expect(seen.page.locator(".whose")).to_have_text("Worked for the example numbers:")
    assert "ft" not in seen.field(LENGTH).input_value()


def test_units_are_kept_for_the_next_page(visit: Visit) -> None:
    seen = visit(WIRE)
    seen.choose("Units", "Metric: m, km, °C")
    expect(seen.page.locator("label[for=run_length]")).to_have_text(re.compile("in metres$"))
    other = visit("run/car-distance/")
    expect(other.page.locator("label[for=trip]")).to_have_text(re.compile("in kilometres$"))
    expect(other.page.locator(".whose")).to_have_text("Worked for the example numbers:")


def test_rules_change_which_choices_there_are(visit: Visit) -> None:
    seen = visit(WIRE)
    seen.tell("Breaker or fuse before the run", "16")
    seen.choose("Rules that answer", "IEC")
    expect(seen.page.locator("#size option", has_text="1.5 mm2")).to_have_count(1)
    seen.expect_fresh()
    expect(seen.field("Breaker or fuse before the run")).to_have_value("16")
    assert seen.echo()[SIZE].endswith("mm2")


def test_a_rule_set_that_a_check_does_not_know_is_not_known(visit: Visit) -> None:
    seen = visit("run/welder-group/")
    seen.choose("Rules that answer", "IEC")
    seen.expect_verdict("not known")


def test_steps_stay_within_the_range_and_on_their_grid(visit: Visit) -> None:
    seen = visit(TOOL)
    label = "Other loads on the same breaker"
    expect(seen.field(label)).to_have_value("0")
    seen.less(label)
    expect(seen.field(label)).to_have_value("0")
    seen.more(label)
    first = float(seen.field(label).input_value())
    seen.more(label)
    assert float(seen.field(label).input_value()) == 2 * first > 0


def test_a_temperature_is_stepped_below_nought(visit: Visit) -> None:
    """A phone's number pad may have no minus key."""
    seen = visit("run/car-distance/")
    label = "Temperature of the bank's cells"
    seen.choose("Units", "Metric: m, km, °C")
    expect(seen.page.locator("label", has_text=label)).to_have_text(re.compile("Celsius$"))
    for _ in range(60):
        if seen.field(label).input_value().startswith("−"):
            break
        seen.less(label)
    expect(seen.field(label)).to_have_value(re.compile(r"^−\d"))
    seen.expect_echo(label, seen.field(label).input_value() + " °C")


def test_the_answer_follows_to_the_field_that_was_changed(visit: Visit) -> None:
    """The form is long: nobody has to scroll up to see what a tap did, and the button stays under the finger."""
    seen = visit(WIRE)
    seen.more("Current that runs three hours or more")
    seen.expect_fresh()
    button = seen.page.get_by_role("button", name=f"More: {LENGTH}")
    button.scroll_into_view_if_needed()
    before = button.bounding_box()
    button.tap()
    here = seen.page.locator("#here")
    expect(here).to_be_visible()
    after = button.bounding_box()
    assert before and after and abs(before["y"] - after["y"]) < 1
    seen.expect_fresh()
    expect(here).to_contain_text(seen.say.inner_text().split(".", 1)[1].strip())
    gap = here.bounding_box()["y"] - after["y"]
    assert 0 < gap < 250, "right under the field"
    here.tap()
    expect(seen.say).to_be_focused()
    expect(seen.say).to_be_in_viewport()


def test_a_field_is_two_taps_away_from_the_answer(visit: Visit) -> None:
    seen = visit(WIRE)
    seen.tap("Find a number to change")
    seen.page.locator("#finder").get_by_role("link", name=LENGTH).tap()
    expect(seen.field(LENGTH)).to_be_focused()
    expect(seen.page.locator("label[for=run_length]")).to_be_in_viewport()


def test_a_page_reads_without_scripts(without_scripts: Page) -> None:
    """Everything that needs a script is away, and the page says so."""
    page = without_scripts
    page.goto(page.url + BACKING)
    expect(page.locator("#say")).to_contain_text("No.")
    told = page.locator("main noscript")
    assert told.bounding_box(), "it takes room on the page"
    assert "Your own numbers need script switched on" in told.inner_text()
    for waiting in (".step", ".common", "#again", "#print", "#looks", "#here", "#stale"):
        assert page.locator(waiting).first.is_hidden(), waiting
    page.locator("summary", has_text="working").click()
    expect(page.locator("#working .line").first).to_be_visible()


def test_five_hundred_quick_edits_end_with_the_last(visit: Visit) -> None:
    """The latest question wins; an earlier answer never comes after it."""
    seen = visit(WIRE)
    seen.field(LENGTH).evaluate(
        """field => { for (let length = 1; length <= 500; length++) {
          field.value = String(length);
          field.dispatchEvent(new Event("input", { bubbles: true }));
        } }"""
    )
    seen.expect_echo(LENGTH, "500 ft")
    eventually(lambda: "run_length=500" in seen.page.url)
