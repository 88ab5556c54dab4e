"""The demo's page on a phone of 390 x 844, dark and light: text fits, buttons can be reached and read."""

import io
from pathlib import Path
from typing import Any

import httpx
import pytest
from PIL import Image

from demo.running import OWNER, running
from tests.demo.chromium import HEIGHT, PROGRAM, WIDTH, Page, page
from tests.journeys.talking import START

pytestmark = [
    pytest.mark.asyncio,
    pytest.mark.skipif(PROGRAM is None, reason="Debian's package chromium is not installed"),
]
TALK = (
    "/start",
    "Gent",
    "hoya, landing, 15 cm\nsmall hoya, landing\nmoth orchid, kitchen\nweeping fig, study",
    "landing has no window",
    "got soap, ready to use, every 7 days",
    "rename weeping fig to Nobody Dares Move Wilhelmina Upstairs",
    "hoya 12 longtailed mealybugs in the axils",
    "hoya 9 yesterday",
    "why more hoya",
    "chart hoya",
    "walk",
)
LEAST_CONTRAST = 4.5
"""WCAG 2.2, 1.4.3: text to its ground, level AA."""
LEAST_TARGET_PX = 44
"""WCAG 2.2, 2.5.5: a target that a thumb hits, level AAA."""

MEASURE = """(() => {
  const box = (e) => { const r = e.getBoundingClientRect(); return [r.left, r.top, r.right, r.bottom]; };
  const ground = (e) => {
    for (let at = e; at; at = at.parentElement) {
      const c = getComputedStyle(at).backgroundColor;
      if (!c.startsWith('rgba') && c !== 'transparent') return c;
    }
    return 'rgb(255, 255, 255)';
  };
  const seen = (e) => e.getClientRects().length > 0 && getComputedStyle(e).clipPath === 'none';
  const texts = [...document.querySelectorAll('li p, button, h1, time, textarea')].filter(seen);
  return {
    page: [document.scrollingElement.scrollWidth, document.scrollingElement.scrollHeight],
    wide: [...document.querySelectorAll('li, li p, li img, button, textarea, header, form')].filter(seen)
      .map((e) => [e.tagName, e.scrollWidth - e.clientWidth, ...box(e)]),
    buttons: [...document.querySelectorAll('button')].filter(seen).map((e) => [e.textContent, ...box(e)]),
    colours: texts.map((e) => [e.tagName, getComputedStyle(e).color, ground(e)]),
    bubbles: document.querySelectorAll('li').length,
    input: box(document.getElementById('text')),
  };
})()"""

_NEWEST = "[...document.querySelectorAll('li')].at(-1).getBoundingClientRect()"
_SCROLL_BACK = """new Promise((done) => {
  const box = document.getElementById('scroll');
  box.addEventListener('scroll', () => requestAnimationFrame(done), { once: true });
  box.scrollTop = 0;
})"""


@pytest.mark.parametrize("scheme", ["light", "dark"])
async def test_the_page_fits_a_phone_and_can_be_read(tmp_path: Path, scheme: str) -> None:
    async with running(START) as whole, page(tmp_path / "profile") as shown:
        await _talk(whole.standin.url)
        await shown.open(whole.standin.url, scheme=scheme)
        await shown.until("document.querySelectorAll('li').length >= 20")
        assert await shown.run("document.body.textContent.includes('is called Nobody Dares Move')")
        await shown.until("[...document.images].every((one) => one.complete && one.naturalWidth > 0)")
        await _sees_the_newest(shown)
        found = await shown.run(MEASURE)
        picture = await shown.picture()
    _fits(found)
    _can_be_pressed(found)
    _can_be_read(found)
    _is_drawn(picture, is_dark=scheme == "dark")


async def test_a_message_typed_and_a_button_pressed_on_the_page_reach_the_bot(tmp_path: Path) -> None:
    async with running(START) as whole, page(tmp_path / "profile") as shown:
        await _talk(whole.standin.url, TALK[:5])
        await shown.open(whole.standin.url, scheme="light")
        await shown.until("document.querySelectorAll('li').length >= 8")
        await shown.run(
            "document.getElementById('text').value = 'walk with a lens';"
            "document.getElementById('form').requestSubmit()"
        )
        await shown.until(
            "[...document.querySelectorAll('li p')].some((one) => one.textContent.includes('1 of 4'))"
        )
        press = "[...document.querySelectorAll('li button')].find((one) => one.textContent === 'None seen').click()"
        await shown.run(press)
        await shown.until(
            "[...document.querySelectorAll('li p')].some((one) => one.textContent.includes('2 of 4'))"
        )
        # the same message turned into the next plant: the first is no longer there
        assert not await shown.run(
            "[...document.querySelectorAll('li p')].some((one) => one.textContent.includes('1 of 4'))"
        )


async def test_the_newest_stays_in_sight_while_pictures_grow_unless_the_person_scrolled_back(
    tmp_path: Path,
) -> None:
    grow = (
        "[...document.querySelectorAll('li')].at(-1).prepend("
        "Object.assign(document.createElement('div'), { style: 'height: 900px' }));"
        # the browser tells of its own scrolling later, here after the growth
        "document.getElementById('scroll').dispatchEvent(new Event('scroll'))"
    )
    async with running(START) as whole, page(tmp_path / "profile") as shown:
        await _talk(whole.standin.url, TALK[:5])
        await shown.open(whole.standin.url, scheme="light")
        await shown.until("document.querySelectorAll('li').length >= 8")
        await _sees_the_newest(shown)
        await shown.run(grow)
        await _sees_the_newest(shown)
        await shown.run(_SCROLL_BACK)
        await shown.run(grow)
        await shown.run("new Promise((done) => setTimeout(done, 200))")
        assert await shown.run("document.getElementById('scroll').scrollTop") == 0


async def _talk(url: str, texts: tuple[str, ...] = TALK) -> None:
    async with httpx.AsyncClient(base_url=url, trust_env=False, timeout=30) as web:
        for text in texts:
            assert (await web.post(f"/person/{OWNER}/say", json={"text": text})).status_code == 200


async def _sees_the_newest(shown: Page) -> None:
    await shown.until(f"(() => {{ const end = {_NEWEST}.bottom; return 0 <= end && end <= {HEIGHT}; }})()")


def _fits(found: dict[str, Any]) -> None:
    assert found["page"][0] <= WIDTH
    assert found["page"][1] <= HEIGHT  # the list scrolls, not the page: the message field stays in reach
    for tag, over, left, _, right, _ in found["wide"]:
        assert over <= 1, f"{tag} holds text wider than itself by {over} px"
        assert left >= 0, tag
        assert right <= WIDTH, tag


def _can_be_pressed(found: dict[str, Any]) -> None:
    assert any(label == "A plain look" for label, *_ in found["buttons"])
    for label, left, top, right, bottom in found["buttons"]:
        assert right - left >= LEAST_TARGET_PX, label
        assert bottom - top >= LEAST_TARGET_PX, label
    _, top, _, bottom = found["input"]
    assert 0 < top < bottom <= HEIGHT


def _can_be_read(found: dict[str, Any]) -> None:
    for tag, ink, ground in found["colours"]:
        assert contrast(rgb(ink), rgb(ground)) >= LEAST_CONTRAST, f"{tag}: {ink} on {ground}"


def rgb(colour: str) -> tuple[int, ...]:
    """Read "rgb(1, 2, 3)"."""
    return tuple(int(float(part)) for part in colour[colour.index("(") + 1 : -1].split(",")[:3])


def contrast(one: tuple[int, ...], other: tuple[int, ...]) -> float:
    """Contrast of two colours by WCAG 2.2's definition of relative luminance. [1]."""

    def luminance(colour: tuple[int, ...]) -> float:
        shares = [part / 255 for part in colour]
        linear = [share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4 for share in shares]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def _is_drawn(content: bytes, *, is_dark: bool) -> None:
    with Image.open(io.BytesIO(content)) as picture:
        assert picture.size == (2 * WIDTH, 2 * HEIGHT)
        small = picture.convert("L").resize((39, 84))
        tones = small.tobytes()
    assert len(set(tones)) > 20, "the page is empty"
    assert (sum(tones) / len(tones) < 110) is is_dark


async def test_the_contrast_is_reckoned_as_the_standard_says() -> None:
    # WCAG 2.2: black on white is 21 to 1; #767676 on white is the well-known limit case of 4.54 to 1.
    assert round(contrast((0, 0, 0), (255, 255, 255)), 2) == 21.0
    assert round(contrast((0x76, 0x76, 0x76), (255, 255, 255)), 2) == 4.54
