"""The code of a sheet that is to be given, typed or touched."""

from frame.app import Change, Pop
from frame.screens.parts.code_of_sheet import code_trouble
from frame.screens.parts.code_page import CodePage
from frame.sheets.code import CodeError, code_of, recipe_of


class CodeToGive(CodePage):
    """Its result is the code as it is printed."""

    @property
    def title(self) -> str:
        """What it is for."""
        return self.room.words.text("giving.by_code")

    def take(self) -> Change | None:
        """The sheet of this code, or what is wrong with it."""
        try:
            return Pop(code_of(recipe_of(self.signs)))
        except CodeError as error:
            self.refuse(code_trouble(error, self.room.words), error.nearest)
            return None
