package paint_test

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"underfall/app/paint"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// allDrawings are the drawings of a result by what they are called, with the lines of cuts that a
// window lays over them: in the plan that through the drain, in a section one upright through a third
// of what is looked at.
func allDrawings(t testing.TB, r geometry.Result) map[string]section.Drawing {
	t.Helper()
	out := map[string]section.Drawing{"plan": section.PlanOf(r), "waste": section.LongOf(r), "bed": section.BedOf(r), "boards": section.BoardsOf(r)}
	cuts := map[string]section.Cutting{}
	for _, c := range section.CutPlaces(r) {
		cuts[style(unit.Metric).Book.Say(c.Goes(r))] = c
	}
	for i, c := range section.AcrossSteps(r) {
		cuts[fmt.Sprint("across step ", i+1)] = c
	}
	low, high, _ := r.Layout.Room.Bounds()
	cuts["through the drain, turned"] = section.Cutting{Of: section.CutDrain}.Turned(r, r.Layout.TrapCentre, 33)
	cuts["through two points"] = section.Cutting{Of: section.CutPoints, From: low.Add(high.Sub(low).Mul(0.1)), To: high}
	for name, c := range cuts {
		d, err := section.Through(r, c, buildup.StageTile)
		if err != nil {
			t.Fatalf("%s: %s: %v", r.Settled.Name, name, err)
		}
		const farMM = 1e5
		x := (d.FocusLow.X()*2 + d.FocusHigh.X()) / 3
		d.Over = [][2]plan.Point{{{x, -farMM}, {x, farMM}}}
		out[name] = d
	}
	planned, cut := out["plan"], out["through the drain"].Cut
	at, along := plan.Point{cut.Origin.X(), cut.Origin.Y()}, plan.Point{cut.Along.X(), cut.Along.Y()}
	planned.Over = [][2]plan.Point{{at.Sub(along.Mul(high.Sub(low).Len())), at.Add(along.Mul(high.Sub(low).Len()))}}
	out["plan"] = planned
	out["at a level"], _ = section.Through(r, section.Cutting{Of: section.CutLevel, LevelMM: r.Heights.BaseTopMM - 3}, buildup.StageTile)
	for _, of := range section.LevelCuts() {
		if d, err := section.Through(r, section.Cutting{Of: of}, buildup.StageTile); err == nil {
			out[string(of)] = d
		}
	}
	return out
}

// sizes are the pictures that drawings are looked at in: a pane of the least window, panes of usual
// ones, all of a large one.
func sizes() [][2]int { return [][2]int{{300, 220}, {480, 300}, {620, 420}, {1024, 640}, {1600, 1000}} }

// In every drawing of every demo, in five sizes and both systems of units, no text meets another,
// a letter of a wall, anything that can be dragged or the line of a cut; no stem that leads to one
// passes through another; all of each is in the picture. In the larger ones nine marks of ten are there,
// and in the plan every wall has its letter.
func TestTextsKeepApart(t *testing.T) {
	texts, written, marked := 0, 0, 0
	for _, r := range demotest.Shown(t) {
		for name, d := range allDrawings(t, r) {
			for i, size := range sizes() {
				if testing.Short() && i%2 == 1 {
					continue
				}
				for _, u := range []unit.System{unit.Metric, unit.Imperial} {
					where := fmt.Sprintf("%s, %s, %d by %d, %s", r.Settled.Name, name, size[0], size[1], u)
					v := paint.FitTo(&d, size[0], size[1], 1)
					l := section.Letter(paint.SheetOf(painter(t), v, style(u)), paint.SeenIn(&d, v))
					texts += len(l.Texts)
					keptApart(t, where, &l, v)
					keptOff(t, where, &l, v, &d)
					if size[0] < 600 {
						continue
					}
					walls := 0
					for _, n := range d.Names {
						if n.Disc != 0 {
							walls++
						}
					}
					for _, disc := range l.Discs {
						if !disc.Ring {
							walls--
						}
					}
					if name == "plan" && walls != 0 {
						t.Errorf("%s: %d walls have no letter", where, walls)
					}
					written += len(l.Stems)
					marked += marksOn(&d, v)
				}
			}
		}
	}
	t.Logf("%d texts; %d of %d marks in the larger pictures", texts, written, marked)
	if texts < 5000 || written < marked*9/10 {
		t.Errorf("only %d texts, %d of %d marks", texts, written, marked)
	}
}

// marksOn counts the marks whose feet are on the picture, those of one level close together as one.
func marksOn(d *section.Drawing, v paint.View) (n int) {
	seen := map[string][]float64{}
	for _, m := range d.Marks {
		x, y := v.ToPixel(m.At)
		if x < 0 || x > float64(v.Width) || y < 0 || y > float64(v.Height) {
			continue
		}
		m.LevelMM = math.Round(m.LevelMM)
		text := m.Message().String()
		if !slices.ContainsFunc(seen[text], func(o float64) bool { return math.Abs(o-x) < 130 }) {
			n++
		}
		seen[text] = append(seen[text], x)
	}
	return n
}

// standing is what stands on a picture: a text or a disc.
type standing struct {
	what string
	box  placing.Box
}

func standingIn(l *section.Lettering) (out []standing) {
	for _, t := range l.Texts {
		out = append(out, standing{t.Message.String(), t.Box})
	}
	for _, d := range l.Discs {
		out = append(out, standing{d.Letters, placing.Box{Low: placing.Point{d.At[0] - d.Radius, d.At[1] - d.Radius}, High: placing.Point{d.At[0] + d.Radius, d.At[1] + d.Radius}}})
	}
	return out
}

// keptApart finds texts that meet, and what leads through one that it does not lead to.
func keptApart(t *testing.T, where string, l *section.Lettering, v paint.View) {
	t.Helper()
	const hair = 1e-6
	all := standingIn(l)
	for i, a := range all {
		if a.box.Low[0] < -hair || a.box.Low[1] < -hair || a.box.High[0] > float64(v.Width)+hair || a.box.High[1] > float64(v.Height)+hair {
			t.Errorf("%s: %s is not all in the picture: %v", where, a.what, a.box)
		}
		for _, b := range all[:i] {
			if a.box.Low[0] < b.box.High[0]-hair && b.box.Low[0] < a.box.High[0]-hair && a.box.Low[1] < b.box.High[1]-hair && b.box.Low[1] < a.box.High[1]-hair {
				t.Errorf("%s: %s and %s meet", where, a.what, b.what)
			}
		}
	}
	for _, stem := range l.Stems {
		// It ends at its own text; all others it has to miss.
		through := 0
		for _, a := range all {
			for i := 1; i < len(stem.Points); i++ {
				if passes(stem.Points[i-1], stem.Points[i], a.box) {
					through++
					break
				}
			}
		}
		if through > 1 {
			t.Errorf("%s: a stem from %v leads through %d texts", where, stem.Points[0], through)
		}
	}
}

// passes tells, by looking at every half pixel, whether a straight passes through a box.
func passes(a, b placing.Point, box placing.Box) bool {
	steps := 2 * int(max(b[0]-a[0], a[0]-b[0], b[1]-a[1], a[1]-b[1], 1))
	for i := 0; i <= steps; i++ {
		s := float64(i) / float64(steps)
		x, y := a[0]+s*(b[0]-a[0]), a[1]+s*(b[1]-a[1])
		if x > box.Low[0] && x < box.High[0] && y > box.Low[1] && y < box.High[1] {
			return true
		}
	}
	return false
}

// keptOff finds texts on what can be dragged, which is drawn 12 by 12, and on the lines of cuts.
func keptOff(t *testing.T, where string, l *section.Lettering, v paint.View, d *section.Drawing) {
	t.Helper()
	for _, a := range standingIn(l) {
		for _, h := range d.Handles {
			x, y := v.ToPixel(h.At)
			if a.box.Low[0] < x+6 && x-6 < a.box.High[0] && a.box.Low[1] < y+6 && y-6 < a.box.High[1] {
				t.Errorf("%s: %s lies on a handle", where, a.what)
			}
		}
		for _, o := range d.Over {
			var from, to placing.Point
			from[0], from[1] = v.ToPixel(o[0])
			to[0], to[1] = v.ToPixel(o[1])
			// Of a line far longer than the picture only what shows.
			if s := (placing.Straight{from, to}); s.Meets(a.box) {
				t.Errorf("%s: %s lies on the line of a cut", where, a.what)
			}
		}
	}
}

// The same drawing is lettered the same way every time.
func TestLetteringIsTheSameEachTime(t *testing.T) {
	for _, r := range demotest.Shown(t)[:3] {
		for name, d := range allDrawings(t, r) {
			v := paint.FitTo(&d, 480, 300, 1)
			letter := func() section.Lettering {
				return section.Letter(paint.SheetOf(painter(t), v, style(unit.Metric)), paint.SeenIn(&d, v))
			}
			if a, b := letter(), letter(); !reflect.DeepEqual(a, b) {
				t.Errorf("%s, %s: lettered otherwise the second time", r.Settled.Name, name)
			}
		}
	}
}

// Lettering has to take well under the 40 ms of a frame at 25 a second.
func BenchmarkLettering(b *testing.B) {
	for _, r := range demotest.Shown(b)[:2] {
		all := allDrawings(b, r)
		for _, name := range []string{"plan", "through the drain", "waste", "boards"} {
			for _, size := range [][2]int{{480, 300}, {1600, 1000}} {
				d := all[name]
				v := paint.FitTo(&d, size[0], size[1], 1)
				sheet := paint.SheetOf(painter(b), v, style(unit.Metric))
				b.Run(fmt.Sprintf("%s/%s/%dx%d", r.Settled.Name, name, size[0], size[1]), func(b *testing.B) {
					for b.Loop() {
						section.Letter(sheet, paint.SeenIn(&d, v))
					}
				})
			}
		}
	}
}

// In the section across any step of any demo that step is told, however low it is and however small the picture.
func TestStepsAreTold(t *testing.T) {
	told := 0
	for _, r := range demotest.Shown(t) {
		for _, c := range section.AcrossSteps(r) {
			d, err := section.Through(r, c, buildup.StageTile)
			if err != nil {
				t.Fatal(err)
			}
			for _, size := range sizes() {
				for _, u := range []unit.System{unit.Metric, unit.Imperial} {
					v := paint.FitTo(&d, size[0], size[1], 1)
					l := section.Letter(paint.SheetOf(painter(t), v, style(u)), paint.SeenIn(&d, v))
					for _, m := range d.Dimensions {
						x, y := v.ToPixel(m.To)
						if !m.Step || x < 0 || y < 0 || x > float64(v.Width) || y > float64(v.Height) {
							continue
						}
						told++
						if !slices.ContainsFunc(l.Texts, func(t section.Text) bool { return reflect.DeepEqual(t.Message, m.Text) }) {
							t.Errorf("%s, across %v, %d by %d, %s: %v is not told", r.Settled.Name, c.Step, size[0], size[1], u, m.Text)
						}
					}
				}
			}
		}
	}
	if told < 100 {
		t.Errorf("only %d steps", told)
	}
}
