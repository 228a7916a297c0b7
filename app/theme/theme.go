// Package theme is how the program looks and speaks: colours, sizes, and the language, which
// like colours must reach every widget and change under it.
package theme

import (
	"image/color"
	"sync/atomic"

	"fyne.io/fyne/v2"
	fynetheme "fyne.io/fyne/v2/theme"
	"underfall/app/paint"
	"underfall/app/words"
	"underfall/geometry/material"
	"underfall/geometry/unit"
)

// Theme is the program's theme: calm greys, one warm accent, sizes for gloves.
// It carries the language as well: like colours, words must reach every widget and
// change under it.
type Theme struct {
	fyne.Theme
	dark bool
	book atomic.Pointer[words.Book]
}

// New makes the theme with the language that is spoken.
func New(dark bool, book words.Book) *Theme {
	t := &Theme{Theme: fynetheme.DefaultTheme(), dark: dark}
	t.book.Store(&book)
	return t
}

// Dark tells whether it is the dark one.
func (t *Theme) Dark() bool { return t.dark }

// SetDark chooses the dark or the light one; the app's settings tell the widgets.
func (t *Theme) SetDark(dark bool) { t.dark = dark }

// Speak changes the language.
func (t *Theme) Speak(b words.Book) { t.book.Store(&b) }

// Color of a named element.
func (t *Theme) Color(n fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	variant := fynetheme.VariantLight
	if t.dark {
		variant = fynetheme.VariantDark
	}
	pick := func(light, dark color.NRGBA) color.Color {
		if t.dark {
			return dark
		}
		return light
	}
	switch n {
	case fynetheme.ColorNamePrimary, fynetheme.ColorNameHyperlink:
		return pick(color.NRGBA{0x9a, 0x4a, 0x1c, 255}, color.NRGBA{0xf0, 0xa0, 0x6c, 255})
	case fynetheme.ColorNameFocus:
		return pick(color.NRGBA{0x9a, 0x4a, 0x1c, 0x66}, color.NRGBA{0xf0, 0xa0, 0x6c, 0x66})
	case fynetheme.ColorNameSelection:
		return pick(color.NRGBA{0x9a, 0x4a, 0x1c, 0x33}, color.NRGBA{0xf0, 0xa0, 0x6c, 0x44})
	case fynetheme.ColorNameBackground:
		return pick(color.NRGBA{0xf6, 0xf5, 0xf2, 255}, color.NRGBA{0x1d, 0x20, 0x24, 255})
	case fynetheme.ColorNameInputBackground:
		return pick(color.NRGBA{0xff, 0xff, 0xff, 255}, color.NRGBA{0x2a, 0x2e, 0x33, 255})
	case fynetheme.ColorNameForeground:
		return pick(color.NRGBA{0x22, 0x25, 0x29, 255}, color.NRGBA{0xe6, 0xe6, 0xe2, 255})
	case fynetheme.ColorNameButton:
		return pick(color.NRGBA{0xe7, 0xe4, 0xde, 255}, color.NRGBA{0x33, 0x38, 0x3e, 255})
	case fynetheme.ColorNameDisabled, fynetheme.ColorNamePlaceHolder:
		return pick(color.NRGBA{0x77, 0x76, 0x70, 255}, color.NRGBA{0x92, 0x96, 0x9a, 255})
	case fynetheme.ColorNameSuccess:
		return pick(color.NRGBA{0x2b, 0x70, 0x3d, 255}, color.NRGBA{0x7f, 0xc4, 0x8e, 255})
	case fynetheme.ColorNameError:
		return pick(color.NRGBA{0xa8, 0x26, 0x26, 255}, color.NRGBA{0xf0, 0x8a, 0x80, 255})
	case fynetheme.ColorNameWarning:
		return pick(color.NRGBA{0x96, 0x62, 0x06, 255}, color.NRGBA{0xe6, 0xb3, 0x55, 255})
	case fynetheme.ColorNameInputBorder:
		return pick(color.NRGBA{0xc9, 0xc4, 0xba, 255}, color.NRGBA{0x4a, 0x50, 0x57, 255})
	}
	return t.Theme.Color(n, variant)
}

// Size of a named measure.
func (t *Theme) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case fynetheme.SizeNameText:
		return 13
	case fynetheme.SizeNamePadding:
		return 4
	case fynetheme.SizeNameInnerPadding:
		return 7
	}
	return t.Theme.Size(n)
}

// PaintStyle is how drawings look under the theme.
func (t *Theme) PaintStyle(scale float64, units unit.System, chosen string) paint.Style {
	rgba := func(n fyne.ThemeColorName) color.RGBA {
		r, g, b, a := t.Color(n, 0).RGBA()
		return color.RGBA{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8), uint8(a >> 8)}
	}
	s := paint.Style{Paper: color.RGBA{0xfd, 0xfc, 0xfa, 255}, Ink: color.RGBA{0x1c, 0x1f, 0x22, 255}, Soft: color.RGBA{0x8c, 0x8a, 0x84, 255},
		Accent: rgba(fynetheme.ColorNamePrimary), Scale: scale, Book: t.book.Load().In(units), Chosen: chosen}
	if t.dark {
		s.Paper, s.Ink, s.Soft = color.RGBA{0x1b, 0x1e, 0x22, 255}, color.RGBA{0xe8, 0xe6, 0xe0, 255}, color.RGBA{0x7c, 0x80, 0x86, 255}
	}
	dark := t.dark
	s.Fill = func(m material.Material) color.RGBA {
		c := m.Colour()
		// Materials sit back on the paper so that lines and text lead.
		toPaper := func(v, p uint8) uint8 {
			if dark {
				return uint8(float64(v)*0.45 + float64(p)*0.55)
			}
			return uint8(float64(v)*0.62 + float64(p)*0.38)
		}
		if m.Pattern().Solid {
			return c // there are no lines on it to lead
		}
		return color.RGBA{toPaper(c.R, s.Paper.R), toPaper(c.G, s.Paper.G), toPaper(c.B, s.Paper.B), 255}
	}
	return s
}
