package paint_test

import (
	"testing"

	"underfall/app/paint"
	"underfall/geometry/demotest"
	"underfall/geometry/placing"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// What leads to a note leads through none of the note's own texts, where one could not tell from which side it comes; and of stems
// few pass over the mark of another level, to which they would seem to lead: only where marks stand over each other in a crowd.
func TestLeadersAreToldApart(t *testing.T) {
	stems, over, notes := 0, 0, 0
	for _, r := range demotest.Shown(t) {
		for name, d := range allDrawings(t, r) {
			for _, size := range [...][2]int{{420, 300}, {620, 225}} {
				v := paint.FitTo(&d, size[0], size[1], 1)
				l := section.Letter(paint.SheetOf(painter(t), v, style(unit.Metric)), paint.SeenIn(&d, v))
				for i := range l.Stems {
					stems++
					if overMark(l.Stems, i) {
						over++
					}
				}
				for _, n := range l.Notes {
					if len(n.Lines) < 3 { // not led aside: up, and a tick to each text
						continue
					}
					notes++
					for _, text := range l.Texts {
						// Led aside, its texts are on ticks: all of the way there misses the texts.
						if line := n.Lines[1]; line[0][1] == line[1][1] && passes(line[0], line[1], text.Box) {
							t.Errorf("%s, %s, %v: %s lies over what leads to it", r.Settled.Name, name, size, text.Message)
						}
					}
				}
			}
		}
	}
	t.Logf("%d of %d stems pass over the mark of another; %d notes", over, stems, notes)
	if stems < 500 || notes < 100 || over > stems/75 {
		t.Errorf("%d of %d stems pass over the mark of another; %d notes", over, stems, notes)
	}
}

// overMark tells whether a stem passes over the foot of another, which is 6 by 6 on the side that it leads to.
func overMark(stems []section.Stem, i int) bool {
	for k, other := range stems {
		foot := other.Points[0]
		if k == i || foot == stems[i].Points[0] {
			continue
		}
		box := placing.Box{Low: placing.Point{foot[0] - 3, foot[1] - 6}, High: placing.Point{foot[0] + 3, foot[1]}}
		if other.Down {
			box = placing.Box{Low: placing.Point{foot[0] - 3, foot[1]}, High: placing.Point{foot[0] + 3, foot[1] + 6}}
		}
		for n := 1; n < len(stems[i].Points); n++ {
			if passes(stems[i].Points[n-1], stems[i].Points[n], box) {
				return true
			}
		}
	}
	return false
}
