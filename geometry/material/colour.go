package material

import (
	"image/color"
	"strconv"
)

// ParseColour reads #rrggbb; ok is false for anything else.
func ParseColour(text string) (c color.RGBA, ok bool) {
	if len(text) != len("#rrggbb") || text[0] != '#' {
		return c, false
	}
	v, err := strconv.ParseUint(text[1:], 16, 24)
	if err != nil {
		return c, false
	}
	return rgb(uint32(v)), true
}

// rgb is the colour 0xrrggbb.
func rgb(v uint32) color.RGBA { return color.RGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255} }
