package sheet_test

import (
	"strings"
	"testing"

	"underfall/app/sheet"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
)

// Every word of the trade stands on the sheet with what it means, and the drawings of any job with a waste have those of the drain, the
// floor over it and the pipe.
func TestGlossaryHasEveryWord(t *testing.T) {
	b := book(t)
	for i, r := range demotest.Shown(t) {
		if testing.Short() && i%4 != 0 {
			continue
		}
		text := textOf(t, r, sheet.Glossary)
		flat := strings.Join(strings.Fields(text), " ")
		// The drawings are on the first page, up to the table.
		drawn, _, _ := strings.Cut(flat, "what it means here")
		for _, id := range sheet.GlossaryIDs() {
			if says := b.Text(id); !strings.Contains(flat, says) {
				t.Errorf("%s: “%s” is not on the sheet", r.Settled.Name, says)
			}
		}
		for _, id := range []string{"flange", "cover", "trap", "seal", "weir", "tile", "tanking", "former", "base",
			"structural-floor", "invert", "crown"} {
			if r.Settled.Layers.Shower.Tanking.ThicknessMM == 0 && id == "tanking" {
				continue
			}
			word := b.Text(message.ID("glossary." + id))
			if !strings.Contains(drawn, word) {
				t.Errorf("%s: the drawings do not show “%s”:\n%s", r.Settled.Name, word, drawn)
			}
		}
	}
}
