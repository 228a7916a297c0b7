package control_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
)

// Words a third longer than the English ones, in as little room as there is, are never cut short:
// they wrap, and what they stand in grows.
func TestLongWordsHaveRoom(t *testing.T) {
	const width = 160
	german := []string{"Höhe der Trägerplatte über der Rohdecke", "Gefälleplatte", "Wechselholz zwischen den Balken einsetzen"}
	options := func() (out []control.Option) {
		for _, text := range german {
			out = append(out, control.Option{ID: text, Text: text, Note: "für beide Fälle ausgerechnet"})
		}
		return out
	}
	for name, make := range map[string]func(s *shown) fyne.CanvasObject{
		"pick": func(s *shown) fyne.CanvasObject { return control.NewPick(s.keys, "Boden", options(), german[0], nil) },
		"choice in a column": func(s *shown) fyne.CanvasObject {
			c := control.NewChoice(s.keys, "Boden", options(), german[0], nil)
			c.Columns = 1
			return c
		},
		"press": func(s *shown) fyne.CanvasObject {
			p := control.NewPress(s.keys, "Gefälleplatte wählen", nil)
			return p
		},
		"card": func(*shown) fyne.CanvasObject {
			text := control.NewWrapped(german[2])
			text.Lead = german[0]
			return control.NewCard(text).Standing(theme.Tight)
		},
	} {
		var o fyne.CanvasObject
		s := show(t, func(s *shown) fyne.CanvasObject {
			o = make(s)
			return container.NewVBox(o)
		}, fyne.NewSize(width, 400))
		s.settle(fyne.NewSize(width, 400))
		if o.Size().Width > width {
			t.Errorf("the %s is %v wide, there are %v", name, o.Size().Width, width)
		}
		for _, text := range control.Placed(o) {
			if text.At.X < 0 || text.At.Y < 0 || text.At.X+text.Size.Width > o.Size().Width+0.5 || text.At.Y+text.Size.Height > o.Size().Height+0.5 {
				t.Errorf("the %s is %v, but “%s” lies at %v, %v large", name, o.Size(), text.Text, text.At, text.Size)
			}
		}
	}
}
