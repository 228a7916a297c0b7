package paint_test

import (
	"fmt"
	"image"
	"reflect"
	"slices"
	"strings"
	"testing"

	"underfall/app/golden"
	"underfall/app/paint"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// measuredRooms are the demos with their rooms measured with a tape: all walls as they are, and lengths across that
// have corners lean.
func measuredRooms(t testing.TB) (out []geometry.Result) {
	t.Helper()
	packs := demotest.Packs(t)
	for _, r := range demotest.Shown(t) {
		j := r.Stated
		n := len(j.Room.Outline)
		long := func(a, b int) float64 { return j.Room.Outline[a].Sub(j.Room.Outline[b]).Len() }
		for _, e := range []edit.Edit{edit.TakeTape(), edit.Across(0, 2, long(0, 2)+8), edit.Across(1, n-1, long(1, n-1)-9)} {
			j = e.Apply(j)
		}
		// Where the shower fills the room to its walls there may be no room for it.
		if measured := geometry.Evaluate(j, packs[j.Region]); len(measured.Problems) == 0 {
			out = append(out, measured)
		}
	}
	if len(out) < 6 {
		t.Fatalf("only %d rooms", len(out))
	}
	return out
}

// In the room as it is measured, of every demo, in five sizes and both systems of units, with any mark lit, no text meets
// another or what can be dragged, and in the larger ones every mark of every tape has its figure.
func TestMeasuresKeepApart(t *testing.T) {
	figures, ticks := 0, 0
	for _, r := range measuredRooms(t) {
		lit := section.Lit{Across: [2]int{0, 2}}
		if _, marks := edit.TapeAlong(r.Settled, 0); len(marks) > 0 {
			lit.Mark = &marks[0].Mark
		}
		d := section.RoomOf(r, lit)
		letteredApart(t, r, &d, func(_ string, widthPX int, l *section.Lettering) {
			if widthPX < 600 {
				return
			}
			for _, tape := range d.Tapes {
				ticks += len(tape.Marks)
			}
			for i := range l.Texts {
				if l.Texts[i].Mark != nil {
					figures++
				}
			}
		})
	}
	t.Logf("%d figures at %d marks", figures, ticks)
	if figures < ticks || ticks < 100 {
		t.Errorf("%d figures at %d marks", figures, ticks)
	}
}

// Where the floor was read is marked in the plan of every demo with what was read, in five sizes and both systems of units:
// no figure meets another text, a mark or what can be dragged, and in the larger ones each has its figure.
func TestReadingsKeepApart(t *testing.T) {
	figures, marks := 0, 0
	for _, r := range demotest.Shown(t) {
		j := r.Stated
		for _, at := range []plan.Point{{400, 500}, {1100, 600}, {1100, 600}} {
			j = edit.Read(at, 990+at.X()/100).Apply(j)
		}
		read := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
		if len(read.Problems) > 0 {
			t.Fatalf("%s: %v", j.Name, read.Problems)
		}
		d := section.PlanOf(read)
		d.Read(read)
		letteredApart(t, read, &d, func(where string, widthPX int, l *section.Lettering) {
			for _, text := range l.Texts {
				for _, at := range l.Read {
					const half, high = section.ReadingPoints, 1.6 * section.ReadingPoints
					if b := text.Box; b.Low[0] < at[0]+half && b.High[0] > at[0]-half && b.Low[1] < at[1] && b.High[1] > at[1]-high {
						t.Errorf("%s: %s lies on the mark of a reading", where, text.Message)
					}
				}
			}
			if widthPX < 1000 {
				return
			}
			marks += len(l.Read)
			for _, text := range l.Texts {
				if strings.HasPrefix(text.Key, job.ReadingsKey) || strings.HasPrefix(text.Key, job.SpotLevelsKey) {
					figures++
				}
			}
		})
	}
	t.Logf("%d figures at %d marks", figures, marks)
	if figures < marks || marks < 80 {
		t.Errorf("%d figures at %d marks", figures, marks)
	}
}

// Away from where the floor is stated, where it was read stays marked, quietly: every place that no text covers, no figure, and all
// other texts where they stand without.
func TestReadingsAreMarkedQuietly(t *testing.T) {
	marks := 0
	for _, r := range demotest.Shown(t) {
		plain, marked := section.PlanOf(r), section.PlanOf(r)
		marked.MarkRead(r)
		v := paint.FitTo(&plain, 430, 316, 1) // the plan's place at 1280 × 800
		letter := func(d *section.Drawing) section.Lettering {
			return section.Letter(paint.SheetOf(painter(t), v, style(unit.Metric)), paint.SeenIn(d, v))
		}
		without, with := letter(&plain), letter(&marked)
		seen := 0
		for _, read := range marked.Readings {
			x, y := v.ToPixel(read.At)
			mark := placing.Box{Low: placing.Point{x - 5, y - 8}, High: placing.Point{x + 5, y}} // stands on its point
			covered := slices.ContainsFunc(without.Texts, func(t section.Text) bool { return t.Box.Overlaps(mark) })
			if shown := slices.Contains(with.ReadQuiet, placing.Point{x, y}); shown == covered {
				t.Errorf("%s: the mark at %v shows: %v, though a text covers it: %v", r.Settled.Name, read.At, shown, covered)
			}
			if !covered {
				seen++
			}
		}
		read := len(r.Settled.StatedLevels()) + len(r.Settled.Laser.Readings)
		if len(marked.Readings) != read || len(with.ReadQuiet) != seen || len(with.Read) > 0 {
			t.Errorf("%s: %d quiet marks and %d others of %d places", r.Settled.Name, len(with.ReadQuiet), len(with.Read), read)
		}
		marks += len(with.ReadQuiet)
		if !reflect.DeepEqual(without.Texts, with.Texts) {
			t.Errorf("%s: texts stand otherwise with the marks", r.Settled.Name)
		}
	}
	if marks < 3 { // of the slab of the first demo
		t.Errorf("%d marks", marks)
	}
}

// letteredApart letters a drawing of a result in five sizes and both systems of units: no text meets another or what can be
// dragged. It visits each.
func letteredApart(t *testing.T, r geometry.Result, d *section.Drawing, visit func(where string, widthPX int, l *section.Lettering)) {
	t.Helper()
	for _, size := range sizes() {
		for _, u := range []unit.System{unit.Metric, unit.Imperial} {
			where := fmt.Sprintf("%s, %d by %d, %s", r.Settled.Name, size[0], size[1], u)
			v := paint.FitTo(d, size[0], size[1], 1)
			l := section.Letter(paint.SheetOf(painter(t), v, style(u)), paint.SeenIn(d, v))
			keptApart(t, where, &l, v)
			keptOff(t, where, &l, v, d)
			visit(where, size[0], &l)
		}
	}
}

// The room as it is measured, as a person has looked at it.
func TestRoomAsSeen(t *testing.T) {
	rooms := measuredRooms(t)
	for _, c := range []struct {
		name  string
		room  int
		dark  bool
		units unit.System
	}{{"room-light", 0, false, unit.Metric}, {"room-dark-inches", 4, true, unit.Imperial}} {
		r := rooms[c.room]
		_, marks := edit.TapeAlong(r.Settled, r.Settled.Room.InOrder()[0])
		lit := slices.IndexFunc(marks, func(m edit.TapeMark) bool { return m.Taken() })
		d := section.RoomOf(r, section.Lit{Mark: &marks[lit].Mark})
		img := image.NewRGBA(image.Rect(0, 0, 600, 600))
		painter(t).Draw(img, d, paint.FitTo(&d, 600, 600, 1), paint.Usual(c.dark, 1, style(c.units).Book, c.units))
		golden.Check(t, c.name, img)
	}
}
