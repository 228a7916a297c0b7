// Package theme is how the program looks and speaks: colours, sizes, marks, and the language,
// which like colours must reach every widget and change under it.
package theme

import (
	"image/color"
	"sync/atomic"

	"fyne.io/fyne/v2"
	fynetheme "fyne.io/fyne/v2/theme"
	"underfall/app/paint"
	"underfall/app/words"
	"underfall/geometry/unit"
)

// Theme is the program's theme: the colours of its roles, its sizes, its language.
type Theme struct {
	fyne.Theme
	*shared
	times float32 // as large as usual
}

// shared is what a theme and those of other sizes made of it have in common.
type shared struct {
	dark  bool
	still bool
	large bool
	book  atomic.Pointer[words.Book]
	marks marks
}

// New makes the theme with the language that is spoken.
func New(dark bool, book words.Book) *Theme {
	t := &Theme{Theme: fynetheme.DefaultTheme(), shared: &shared{dark: dark}, times: 1}
	t.book.Store(&book)
	return t
}

// Times is the theme with everything so many times as large, for a part of the window: what
// is pressed with gloves on, or read at arm's length.
func (t *Theme) Times(times float32) *Theme {
	return &Theme{Theme: t.Theme, shared: t.shared, times: t.times * times}
}

// Large is how many times as large things are where they are to be pressed with gloves on.
const Large = float32(LargeHeight) / PressHeight

// sizeNameTimes asks a theme how many times as large it is; Fyne wraps themes of parts of the
// window so that they can be asked nothing else.
const sizeNameTimes fyne.ThemeSizeName = "underfall-times"

// Of is the theme a widget is shown under: the light one where the app has none of ours.
func Of(o fyne.CanvasObject) *Theme {
	t, ok := fyne.CurrentApp().Settings().Theme().(*Theme)
	if !ok {
		t = New(false, words.Book{})
	}
	if times := fynetheme.CurrentForWidget(o).Size(sizeNameTimes); times > 0 && times != t.times {
		return &Theme{Theme: t.Theme, shared: t.shared, times: times}
	}
	return t
}

// Unit is a length of the table of sizes as it is under the theme.
func (t *Theme) Unit(v float32) float32 { return v * t.times }

// Text is a size of text of the table as it is under the theme.
func (t *Theme) Text(size float32) float32 {
	if t.large {
		size = larger(size)
	}
	return size * t.times
}

// High is how high something to press is that is usually so high.
func (t *Theme) High(usual float32) float32 {
	if t.large {
		usual = max(usual, LargeHeight)
	}
	return usual * t.times
}

// IsLarge tells whether text is a step larger and nothing to press is lower than for gloves.
func (t *Theme) IsLarge() bool { return t.large }

// SetLarge has it so, or not; the app's settings tell the widgets.
func (t *Theme) SetLarge(large bool) { t.large = large }

// Role is the colour of a role under the theme.
func (t *Theme) Role(r Role) color.NRGBA { return r.In(t.dark) }

// Dark tells whether it is the dark one.
func (t *Theme) Dark() bool { return t.dark }

// SetDark chooses the dark or the light one; the app's settings tell the widgets.
func (t *Theme) SetDark(dark bool) { t.dark = dark }

// Speak changes the language.
func (t *Theme) Speak(b words.Book) { t.book.Store(&b) }

// How much of a colour is laid over another, of 255.
const (
	overHover    = 0x14
	overPressed  = 0x2e
	overFocus    = 0x66
	overSelected = 0x40
	// Of black round menus and questions, and over all that a question stands before.
	shadowLight = 0x50
	shadowDark  = 0x90
)

// Color of a named element of Fyne's own widgets, by its role.
func (t *Theme) Color(n fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	over := func(r Role, a uint8) color.Color {
		c := r.In(t.dark)
		c.A = a
		return c
	}
	switch n {
	case fynetheme.ColorNameHover:
		return over(Ink, overHover)
	case fynetheme.ColorNamePressed:
		return over(Ink, overPressed)
	case fynetheme.ColorNameFocus:
		return over(Press, overFocus)
	case fynetheme.ColorNameSelection:
		return over(Press, overSelected)
	case fynetheme.ColorNameShadow:
		if t.dark {
			return color.NRGBA{A: shadowDark}
		}
		return color.NRGBA{A: shadowLight}
	case fynetheme.ColorNameScrollBarBackground:
		return color.NRGBA{}
	}
	if r, ok := roleOf(n); ok {
		return r.In(t.dark)
	}
	variant := fynetheme.VariantLight
	if t.dark {
		variant = fynetheme.VariantDark
	}
	return t.Theme.Color(n, variant)
}

// roleOf is the role of a named element of Fyne's own widgets; ok is false for one that is not
// known.
func roleOf(n fyne.ThemeColorName) (r Role, ok bool) {
	switch n {
	case fynetheme.ColorNameBackground:
		return Paper, true
	case fynetheme.ColorNameOverlayBackground, fynetheme.ColorNameMenuBackground:
		return Raised, true
	case fynetheme.ColorNameButton, fynetheme.ColorNameInputBackground:
		return Sheet, true
	case fynetheme.ColorNameDisabledButton, fynetheme.ColorNameHeaderBackground:
		return Sunk, true
	case fynetheme.ColorNameForeground:
		return Ink, true
	case fynetheme.ColorNamePlaceHolder, fynetheme.ColorNameDisabled:
		return Caption, true
	case fynetheme.ColorNameSeparator, fynetheme.ColorNameInnerWindowBorder, fynetheme.ColorNameInnerWindowBorderInactive:
		return Line, true
	case fynetheme.ColorNameInputBorder, fynetheme.ColorNameScrollBar:
		return Edge, true
	case fynetheme.ColorNamePrimary, fynetheme.ColorNameHyperlink:
		return Press, true
	case fynetheme.ColorNameForegroundOnPrimary, fynetheme.ColorNameForegroundOnError, fynetheme.ColorNameForegroundOnSuccess,
		fynetheme.ColorNameForegroundOnWarning:
		return OnPress, true
	case fynetheme.ColorNameSuccess:
		return Sound, true
	case fynetheme.ColorNameWarning:
		return Tight, true
	case fynetheme.ColorNameError:
		return Stops, true
	}
	return Ink, false
}

// Size of a named measure of Fyne's own widgets.
func (t *Theme) Size(n fyne.ThemeSizeName) float32 {
	if n == sizeNameTimes {
		return t.times
	}
	switch n {
	case fynetheme.SizeNameText:
		return t.Text(TextSecond)
	case fynetheme.SizeNameCaptionText:
		return t.Text(TextCaption)
	case fynetheme.SizeNameSubHeadingText:
		return t.Text(TextHeading)
	case fynetheme.SizeNameHeadingText:
		return t.Text(TextHeadline)
	}
	return t.size(n) * t.times
}

func (t *Theme) size(n fyne.ThemeSizeName) float32 {
	switch n {
	case fynetheme.SizeNamePadding:
		return Space1
	case fynetheme.SizeNameInnerPadding:
		if t.large {
			return LargeInnerSpace
		}
		return InnerSpace
	case fynetheme.SizeNameInputRadius, fynetheme.SizeNameButtonRadius, fynetheme.SizeNameCardRadius, fynetheme.SizeNameDialogRadius,
		fynetheme.SizeNamePopupRadius, fynetheme.SizeNameMenuRadius:
		return Radius
	case fynetheme.SizeNameModalBlurRadius:
		return 0
	}
	return t.Theme.Size(n)
}

// PaintStyle is how drawings look under the theme: ink on a sheet.
func (t *Theme) PaintStyle(scale float64, units unit.System, chosen string) paint.Style {
	style := paint.Usual(t.dark, scale, *t.book.Load(), units)
	if chosen != "" {
		style.Chosen = []string{chosen}
	}
	return style
}
