package theme_test

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	fynetheme "fyne.io/fyne/v2/theme"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/geometry/material"
	"underfall/viewer"
)

// Fyne's own widgets as well take every colour they name from the roles: none comes from
// Fyne's palette, which knows nothing of them.
func TestFyneTakesTheRoles(t *testing.T) {
	ours := map[color.NRGBA]bool{{}: true}
	for r := theme.Paper; r <= theme.UnknownGround; r++ {
		for _, dark := range []bool{false, true} {
			c := r.In(dark)
			c.A = 0 // some are laid over others
			ours[c] = true
		}
	}
	for _, dark := range []bool{false, true} {
		th := theme.New(dark, words.Book{})
		for _, n := range []fyne.ThemeColorName{fynetheme.ColorNameBackground, fynetheme.ColorNameButton, fynetheme.ColorNameDisabledButton,
			fynetheme.ColorNameDisabled, fynetheme.ColorNameError, fynetheme.ColorNameFocus, fynetheme.ColorNameForeground, fynetheme.ColorNameForegroundOnError,
			fynetheme.ColorNameForegroundOnPrimary, fynetheme.ColorNameForegroundOnSuccess, fynetheme.ColorNameForegroundOnWarning,
			fynetheme.ColorNameHeaderBackground, fynetheme.ColorNameHover, fynetheme.ColorNameHyperlink, fynetheme.ColorNameInnerWindowBorder,
			fynetheme.ColorNameInnerWindowBorderInactive, fynetheme.ColorNameInputBackground, fynetheme.ColorNameInputBorder,
			fynetheme.ColorNameMenuBackground, fynetheme.ColorNameOverlayBackground, fynetheme.ColorNamePlaceHolder, fynetheme.ColorNamePressed,
			fynetheme.ColorNamePrimary, fynetheme.ColorNameScrollBar, fynetheme.ColorNameScrollBarBackground, fynetheme.ColorNameSelection,
			fynetheme.ColorNameSeparator, fynetheme.ColorNameShadow, fynetheme.ColorNameSuccess, fynetheme.ColorNameWarning} {
			c := th.Color(n, 0).(color.NRGBA)
			c.A = 0
			if !ours[c] {
				t.Errorf("%s, dark %v, is no role's: %v", n, dark, c)
			}
		}
		// Text on a filled button of Fyne's reads as well as on ours.
		for on, text := range map[fyne.ThemeColorName]fyne.ThemeColorName{fynetheme.ColorNamePrimary: fynetheme.ColorNameForegroundOnPrimary,
			fynetheme.ColorNameError: fynetheme.ColorNameForegroundOnError, fynetheme.ColorNameWarning: fynetheme.ColorNameForegroundOnWarning,
			fynetheme.ColorNameSuccess: fynetheme.ColorNameForegroundOnSuccess} {
			if c := contrast(th.Color(text, 0).(color.NRGBA), th.Color(on, 0).(color.NRGBA)); c < 4.5 {
				t.Errorf("text on %s, dark %v, has a contrast of %.1f", on, dark, c)
			}
		}
	}
}

// Drawings are ink on a sheet; on the dark one materials have their dark colours.
func TestPaintStyle(t *testing.T) {
	for _, dark := range []bool{false, true} {
		s := theme.New(dark, words.Book{}).PaintStyle(1, "metric", "")
		if s.Paper != color.RGBA(theme.Sheet.In(dark)) || s.Ink != color.RGBA(theme.Ink.In(dark)) || s.Fill(material.BaseBoard) != material.BaseBoard.On(dark) {
			t.Errorf("dark %v: %+v", dark, s)
		}
	}
}

// Round the room in a picture lies the window's paper.
func TestSurroundIsPaper(t *testing.T) {
	for _, dark := range []bool{false, true} {
		if c, ok := material.ParseColour(viewer.Surround(dark)); !ok || c != color.RGBA(theme.Paper.In(dark)) {
			t.Errorf("dark %v: %v", dark, c)
		}
	}
}
