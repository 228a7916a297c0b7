package words_test

import (
	"testing"

	"golang.org/x/image/font/sfnt"
	"underfall/assets"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// A book for what is drawn writes halves, quarters and eighths of inches as they are printed, sixteenths in figures: a
// millimetre is 0.0394 in, so that 36.5 mm are 1 7/16 in and 12.7 mm 1/2 in. Other books have all as they are typed.
func TestFractionsAsTheyAreDrawn(t *testing.T) {
	b := book(t).In(unit.Imperial)
	for _, c := range []struct {
		value        message.Value
		typed, drawn string
	}{
		{message.Length{MM: 12.7}, `1/2"`, `½"`},
		{message.Length{MM: 36.5}, `1 7/16"`, `1 7/16"`},
		{message.Length{MM: 25.4}, `1"`, `1"`},
		{message.Length{MM: 1797.05, Feet: true}, `5' 10 3/4"`, `5' 10¾"`},
		{message.Level{MM: -17.4625}, `-11/16"`, `-11/16"`},
		{message.Fall{Slope: 1.0 / 48}, `1/4 in/ft`, `¼ in/ft`},
		{message.Speed{MPS: 0.3048}, "1 ft/s", "1 ft/s"},
	} {
		if got := b.Value(c.value); got != c.typed {
			t.Errorf("typed %s, want %s", got, c.typed)
		}
		if got := b.Drawn().Value(c.value); got != c.drawn {
			t.Errorf("drawn %s, want %s", got, c.drawn)
		}
	}
	if got := book(t).Drawn().Value(message.Fall{Slope: 0.02}); got != book(t).Value(message.Fall{Slope: 0.02}) {
		t.Errorf("a fall is written %s", got)
	}
}

// The fonts of the program have every character that fractions are drawn with.
func TestFontsCarryFractions(t *testing.T) {
	for _, data := range [][]byte{assets.TextFont(), assets.BoldFont()} {
		f, err := sfnt.Parse(data)
		if err != nil {
			t.Fatal(err)
		}
		var buffer sfnt.Buffer
		for under := range 64 {
			text := book(t).In(unit.Imperial).Drawn().Value(message.Length{MM: float64(under) * 25.4 / 16})
			for _, r := range text {
				if glyph, err := f.GlyphIndex(&buffer, r); err != nil || glyph == 0 {
					t.Errorf("%q of %s is missing", r, text)
				}
			}
		}
	}
}
