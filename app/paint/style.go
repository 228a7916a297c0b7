package paint

import (
	"image/color"

	"underfall/app/role"
	"underfall/app/words"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// Usual is how drawings look: ink on a sheet, in the light or in the dark, so many pixels to a point
// of text. Numbers stand alone, and what they are in once.
func Usual(dark bool, scale float64, b words.Book, units unit.System) Style {
	var stated message.Message
	if units == unit.Metric {
		stated = message.Of("drawing.in-mm")
	}
	in := func(r role.Role) color.RGBA { return color.RGBA(r.In(dark)) }
	return Style{Unit: stated, Paper: in(role.Sheet), Ink: in(role.Ink), Soft: in(role.Edge), Accent: in(role.Press),
		Told: in(role.Tight), ToldGround: in(role.TightGround), Scale: scale,
		Book: b.In(units).Bare(), Fill: func(m material.Material) color.RGBA { return m.On(dark) }}
}
