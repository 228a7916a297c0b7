package space

import (
	"fmt"
	"image"
	"math/rand/v2"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/paint"
	"underfall/app/roomtest"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/placing"
	"underfall/geometry/rule"
	"underfall/geometry/section"
	"underfall/geometry/solid"
	"underfall/geometry/unit"
	"underfall/viewer"
)

// written is what is written over a picture of a result from somewhere, without the picture.
func written(t *testing.T, v *View, w wish) []stuck {
	t.Helper()
	painter, err := paint.NewPainter(assets.TextFont())
	if err != nil {
		t.Fatal(err)
	}
	e := &engine{painter: painter}
	f := w.frame
	f.Scene = viewer.NewScene(w.result, nil)
	if len(w.cuts) > 0 {
		f.Caps = &viewer.Caps{Cuts: w.cuts}
	}
	return e.write(&w, f, image.NewRGBA(image.Rect(0, 0, f.Width, f.Height)))
}

// From any side of any demo, in small pictures and large ones, in any language, metric and in inches: what
// stops a job or is not known has a pin wherever its place is in the picture, told as hidden where it is; no
// label lies on another, on a disc, on what lies over the picture or off the picture; and what was gone to
// always has its label.
func TestPinsFindRoom(t *testing.T) {
	shelf, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	const seed, cameras = 5, 12
	random := rand.New(rand.NewPCG(seed, 1))
	labels, discs, hidden := 0, 0, 0
	v := &View{strips: newStrips(), sight: sight.New(func(f func()) { f() }, nil), theme: roomtest.British(t)}
	for n, r := range demotest.Results(t) {
		for i := range cameras {
			size := []image.Point{{340, 200}, {460, 270}, {1100, 680}}[(n+i)%3]
			tag, units := []string{words.British, words.American, words.MadeUp}[i%3], []unit.System{unit.Metric, unit.Imperial}[i%2]
			r := r
			r.Settled.Units = units
			v.theme.Speak(shelf.Book(tag, units, nil))
			v.result = r
			v.sight.State = sight.Usual()
			v.sight.AllPins = i%2 == 1
			if len(r.Findings) > 0 && i > 1 {
				f := r.Findings[random.IntN(len(r.Findings))]
				v.sight.Mark, v.sight.Marked = &sight.Mark{At: f.Measurement.At, Label: sight.LabelOf(f)}, f.Key()
			}
			w := wish{result: r, dimensions: true, style: v.theme.PaintStyle(1, units, ""), pins: v.pins(),
				frame: viewer.Frame{Stage: buildup.StageTile, Width: size.X, Height: size.Y}}
			aspect := float64(size.X) / float64(size.Y)
			if i%3 > 0 {
				w.cuts = []solid.Cut{section.ThroughDrain(r)}
			}
			w.frame.Camera = viewer.CameraFor([]viewer.View{viewer.ViewCorner, viewer.ViewCut, viewer.ViewPlan}[i%3], r, aspect, section.ThroughDrain(r)).
				Orbit(random.Float64()*0.6-0.3, random.Float64()*0.2-0.1)
			w.taken = []placing.Box{{Low: placing.Point{8, float64(size.Y) - 60}, High: placing.Point{150, float64(size.Y) - 8}}}
			stuck := written(t, v, w)
			where := fmt.Sprintf("%s, %s, %v, camera %d", r.Settled.Name, tag, size, i)
			pinned := pinnedIn(stuck)
			labels += labelsApart(t, where, stuck, shares(w.taken[0], size))
			discs += len(stuck)
			for _, s := range stuck {
				if s.hidden {
					hidden++
				}
			}
			for _, f := range r.Findings {
				x, y, ok := w.frame.Camera.Project(f.Measurement.At, aspect)
				if graver := f.Rule.Severity == rule.Stop || f.Rule.Severity == rule.NotKnown; graver && ok && x > 0 && x < 1 && y > 0 && y < 1 &&
					!pinned[f.Key()] && !toldBy(r, f, pinned) {
					t.Errorf("%s: %s has no pin", where, f.Key())
				}
			}
		}
	}
	if labels < 100 || discs < 200 || hidden < 50 || hidden > discs-50 {
		t.Errorf("%d labels of %d discs, %d of them hidden", labels, discs, hidden)
	}
}

// While a picture is turned labels stay where they stood beside their pins, off each other, the discs, what lies over the
// picture and its rim; once it rests what is written is what would be with nothing written before: of another cut, stage
// or result as well.
func TestWhatIsWrittenMovesAlong(t *testing.T) {
	painter, err := paint.NewPainter(assets.TextFont())
	if err != nil {
		t.Fatal(err)
	}
	v := &View{strips: newStrips(), sight: sight.New(func(f func()) { f() }, nil), theme: roomtest.British(t)}
	v.sight.State = sight.Usual()
	v.sight.AllPins = true
	used := &engine{painter: painter}
	over := placing.Box{Low: placing.Point{8, 210}, High: placing.Point{150, 262}}
	labels := 0
	for n, r := range demotest.Results(t) {
		v.result = r
		scene := viewer.NewScene(r, nil)
		for k, cut := range []solid.Cut{section.ThroughDrain(r), section.AlongRun(r)} {
			stage := buildup.Stage(int(buildup.StageTile) - k)
			w := wish{result: r, generation: n, dimensions: true, moving: true, cuts: []solid.Cut{cut}, pins: v.pins(),
				taken: []placing.Box{over},
				style: v.theme.PaintStyle(1, r.Settled.Units, ""),
				frame: viewer.Frame{Stage: stage, Width: 460, Height: 270, Scene: scene, Caps: &viewer.Caps{Cuts: []solid.Cut{cut}}}}
			home := viewer.CameraFor(viewer.ViewCut, r, 1.7, cut)
			written := func(e *engine) (*image.RGBA, []stuck) {
				img := image.NewRGBA(image.Rect(0, 0, w.frame.Width, w.frame.Height))
				return img, e.write(&w, w.frame, img)
			}
			for step := range 12 {
				w.frame.Camera = home.Orbit(0.03*float64(step), 0.01*float64(step))
				_, stuck := written(used)
				labels += labelsApart(t, fmt.Sprintf("%s, cut %d, step %d", r.Settled.Name, k, step), stuck, shares(over, image.Pt(460, 270)))
			}
			w.moving = false
			after, _ := written(used)
			fresh, _ := written(&engine{painter: painter})
			if !slices.Equal(after.Pix, fresh.Pix) {
				t.Errorf("%s, cut %d: at rest what is written is not what would be with nothing written before", r.Settled.Name, k)
			}
		}
	}
	if labels < 200 {
		t.Errorf("only %d labels", labels)
	}
}

// pinnedIn are the findings that have a pin.
func pinnedIn(stuck []stuck) map[string]bool {
	pinned := map[string]bool{}
	for _, s := range stuck {
		for _, p := range s.of {
			if p.finding != nil {
				pinned[p.finding.Key()] = true
			}
		}
	}
	return pinned
}

// shares is a box in pixels as shares of a picture's size.
func shares(b placing.Box, size image.Point) placing.Box {
	return placing.Box{Low: placing.Point{b.Low[0] / float64(size.X), b.Low[1] / float64(size.Y)},
		High: placing.Point{b.High[0] / float64(size.X), b.High[1] / float64(size.Y)}}
}

// labelsApart holds labels to the picture, off each other, the discs and what lies over the picture, in shares
// of it, and counts them: what was gone to has one.
func labelsApart(t *testing.T, where string, stuck []stuck, over placing.Box) (labels int) {
	t.Helper()
	picture := placing.Box{High: placing.Point{1, 1}}.Grown(1e-9)
	for k, s := range stuck {
		if s.label == (placing.Box{}) {
			if s.of[0].chosen {
				t.Errorf("%s: what was gone to has no label: %s", where, s.of[0].says)
			}
			continue
		}
		labels++
		b := s.label.Grown(-1e-9)
		if !b.Within(picture) || b.Overlaps(over.Grown(-1e-9)) {
			t.Errorf("%s: the label of %s is at %v", where, s.of[0].says, b)
		}
		for o, other := range stuck {
			if b.Overlaps(other.disc) || o != k && b.Overlaps(other.label) {
				t.Errorf("%s: the label of %s lies on %s", where, s.of[0].says, other.of[0].says)
			}
		}
	}
	return labels
}

// toldBy tells whether a graver limit that the same measurement breaks has a pin.
func toldBy(r geometry.Result, f rule.Finding, pinned map[string]bool) bool {
	for _, o := range r.Findings {
		if o.Measurement.ID() == f.Measurement.ID() && o.Rule.Severity.Rank() <= f.Rule.Severity.Rank() && pinned[o.Key()] {
			return true
		}
	}
	return false
}

// A pin is pressed on its disc or its label; of two that lie on each other the one after that which was gone
// to comes next. Beside them nothing is pressed.
func TestPinsArePressed(t *testing.T) {
	v, _ := at(t)
	var gone []string
	v.Go = func(f rule.Finding) { gone = append(gone, f.Rule.ID) }
	of := func(id string, chosen bool) pin {
		return pin{finding: &rule.Finding{Rule: rule.Rule{ID: id}}, chosen: chosen}
	}
	v.stuck = []stuck{
		{of: []pin{of("a", true), of("b", false)}, disc: placing.Around(placing.Point{0.5, 0.5}, 0.04, 0.05),
			label: placing.Around(placing.Point{0.7, 0.3}, 0.2, 0.1)},
		{of: []pin{of("c", false)}, disc: placing.Around(placing.Point{0.2, 0.5}, 0.04, 0.05)},
	}
	press := func(x, y float32) {
		v.Tapped(&fyne.PointEvent{Position: fyne.NewPos(x*v.Size().Width, y*v.Size().Height)})
	}
	for _, p := range [][2]float32{{0.5, 0.5}, {0.77, 0.33}, {0.2, 0.51}, {0.9, 0.9}} {
		press(p[0], p[1])
	}
	v.stuck[0].of[0].chosen, v.stuck[0].of[1].chosen = false, true
	press(0.5, 0.5)
	if want := []string{"b", "b", "c", "a"}; fmt.Sprint(gone) != fmt.Sprint(want) {
		t.Errorf("gone to %v, want %v", gone, want)
	}
	v.theme.SetLarge(true)
	if v.pinUnder(fyne.NewPos(0.2*v.Size().Width+theme.LargeHeight/2-1, 0.5*v.Size().Height)) == nil {
		t.Error("large, a pin is no larger to press")
	}
}
