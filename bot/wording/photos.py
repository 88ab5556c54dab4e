"""Photos in words, and before beside after as one picture."""

import io
from typing import TYPE_CHECKING

from bot.actions.show_photos import PhotosShown
from bot.wording.answer import Answer, Attachment
from bot.wording.days import day
from bot.wording.saying import says
from bot.wording.voice import Voice

if TYPE_CHECKING:
    from PIL import Image

_WIDTH_PX, _GAP_PX, _BAND_PX = 540, 8, 44
_PAPER, _INK = (255, 255, 255), (30, 30, 30)
_QUALITY = 82


def photo_lost(*, is_picture: bool) -> Answer:
    """Tell who sent a photo that it could not be kept, long after it was said to be written."""
    why = (
        "did not come through" if is_picture else "is no picture I can keep (JPEG, PNG or WebP, up to 10 MB)"
    )
    return Answer(
        text=f"A photo you sent {why}: it is not among your photos. What you told with it stays written. "
        "Please send it again as a photo."
    )


@says
def _photos_shown(told: PhotosShown) -> str:
    if told.before is None or told.after is None:
        return f"The photos of {told.plant} are still being fetched; ask again in a minute."
    if told.count == 1:
        return f"{told.plant}, {day(told.after_on)}: the only photo so far."
    return f"{told.plant}: {day(told.before_on)} on the left, {day(told.after_on)} on the right, {told.count} photos in all."


def before_and_after(told: PhotosShown, voice: Voice) -> Attachment | None:
    """Draw both photos side by side with their days; None where one is not here."""
    if told.before is None or told.after is None:
        return None
    from PIL import Image  # noqa: PLC0415 - on demand

    shown = (
        [(told.before, told.before_on), (told.after, told.after_on)]
        if told.count > 1
        else [(told.after, told.after_on)]
    )
    sides = [_side(content, voice.local(day(on))) for content, on in shown]
    height = max(side.height for side in sides)
    width = len(sides) * _WIDTH_PX + (len(sides) - 1) * _GAP_PX
    whole = Image.new("RGB", (width, height), _PAPER)
    for number, side in enumerate(sides):
        whole.paste(side, (number * (_WIDTH_PX + _GAP_PX), 0))
    held = io.BytesIO()
    whole.save(held, "JPEG", quality=_QUALITY)
    return Attachment(f"{told.plant}.jpg", held.getvalue())


def _side(content: bytes, title: str) -> "Image.Image":
    from PIL import Image, ImageDraw, ImageFont, ImageOps  # noqa: PLC0415 - on demand

    with Image.open(io.BytesIO(content)) as opened:
        opened.draft("RGB", (2 * _WIDTH_PX, 2 * _WIDTH_PX))
        upright = ImageOps.exif_transpose(opened).convert("RGB")
    photo = upright.resize((_WIDTH_PX, max(1, round(upright.height * _WIDTH_PX / upright.width))))
    side = Image.new("RGB", (_WIDTH_PX, photo.height + _BAND_PX), _PAPER)
    side.paste(photo, (0, _BAND_PX))
    ImageDraw.Draw(side).text((10, 8), title, fill=_INK, font=ImageFont.load_default(26))
    return side
