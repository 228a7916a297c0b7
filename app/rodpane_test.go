package app

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/job"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// The rods are read from what is chosen: 108 over the slab at the drain of the starting job is 95 over
// its room's floor at 13, 258 over the ground at −150, and 879 down from a laser line at 987. A job of
// which that is not known is read over its structural floor, and the choice holds for the next.
func TestRodsAreReadFromWhatIsChosen(t *testing.T) {
	w, _ := openWindow(t, Options{})
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	read, known := job.New(), -13.0
	read.Laser = job.Laser{SetUps: []job.SetUp{{LevelMM: &known, DownMM: 1000}}}
	r := geometry.Evaluate(read, packs["UK"])
	p := w.rods
	p.show(r)
	drain := func() string { return p.level(r.Heights.TileMM) }
	for i, want := range []string{"+108", "+95", "+258", "879"} {
		p.from.SetSelectedIndex(i)
		if got := drain(); got != want {
			t.Errorf("%s: %s, want %s", p.from.Selected, got, want)
		}
	}
	bare := job.New()
	p.show(geometry.Evaluate(bare, packs["UK"]))
	if got := drain(); got != "+108" || len(p.from.Options) != 3 {
		t.Errorf("without a laser: %s, of %v", got, p.from.Options)
	}
	p.show(r)
	if got := drain(); got != "879" {
		t.Errorf("with one again: %s", got)
	}
}

// Of every demo, in five sizes, both systems of units and from all that heights are counted from, no text at the rods meets
// another or runs off, every rod has its height and its name, every step its figure, and the way in names most of its layers
// where there is room for names.
func TestTextsAtTheRodsKeepApart(t *testing.T) {
	w, _ := openWindow(t, Options{})
	p := w.rods
	texts, layers, named := 0, 0, 0
	for _, demo := range w.demos {
		for _, u := range []unit.System{unit.Metric, unit.Imperial} {
			j := demo.Job.Clone()
			j.Units = u
			packs, err := assets.Rules()
			if err != nil {
				t.Fatal(err)
			}
			p.show(geometry.Evaluate(j, packs[j.Region]))
			for datum := range p.from.Options {
				p.from.SetSelectedIndex(datum)
				for _, size := range []fyne.Size{{Width: 184, Height: 170}, {Width: 240, Height: 190}, {Width: 262, Height: 240},
					{Width: 346, Height: 330}, {Width: 520, Height: 520}} {
					p.rods.Resize(size)
					said := textsKeptApart(t, fmt.Sprintf("%s, %s, from %s, %v", j.Name, u, p.from.Options[datum], size), p.rods)
					texts += len(said)
					if all, n := layersNamed(p.rods, said); n > 0 {
						layers, named = layers+all, named+n
					}
				}
			}
		}
	}
	if texts < 3000 {
		t.Errorf("only %d texts", texts)
	}
	if layers < 500 || named < layers/2 {
		t.Errorf("%d of %d layers are named where there is room for names", named, layers)
	}
}

// layersNamed are how many layers the rod has that names them, and how many of these names are among what is written.
func layersNamed(rods *control.Rods, said []string) (all, named int) {
	for _, rod := range strings.Split(rods.AccessibilityLabel(), "; ") {
		_, names, _ := strings.Cut(rod, ": ")
		for _, name := range strings.Split(names, ", ") {
			if name == "" {
				continue
			}
			if all++; slices.Contains(said, name) {
				named++
			}
		}
	}
	return all, named
}

// textsKeptApart tells of texts of the rods that meet or run off, and gives all of them.
func textsKeptApart(t *testing.T, where string, rods *control.Rods) (said []string) {
	t.Helper()
	var boxes []placing.Box
	const letters = 0.8 // of a text's height, that its letters take
	for _, o := range test.WidgetRenderer(rods).Objects() {
		text, is := o.(*canvas.Text)
		if !is || text.Text == "" {
			continue
		}
		at, size := text.Position(), text.MinSize()
		boxes = append(boxes, placing.Around(placing.Point{float64(at.X + size.Width/2), float64(at.Y + size.Height/2)},
			float64(size.Width), float64(size.Height)*letters))
		said = append(said, text.Text)
	}
	all := placing.Box{High: placing.Point{float64(rods.Size().Width), float64(rods.Size().Height)}}.Grown(0.5)
	for i, b := range boxes {
		if !b.Within(all) {
			t.Errorf("%s: “%s” runs off", where, said[i])
		}
		for k := range i {
			if b.Overlaps(boxes[k]) {
				t.Errorf("%s: “%s” meets “%s”", where, said[i], said[k])
			}
		}
	}
	for _, part := range strings.Split(rods.AccessibilityLabel(), "; ")[1:] {
		figure := strings.Fields(strings.Split(part, ":")[0])
		if last := figure[len(figure)-1]; !slices.ContainsFunc(said, func(s string) bool { return strings.HasSuffix(s, last) }) {
			t.Errorf("%s: “%s” is not told", where, part)
		}
	}
	return said
}

// In room for all, every rod stands there with every step that is one; in little room the way in, with the
// floors that one step parts: that at the doorway while the section goes across it. A rod at a point stands
// among them, and a layer that is pressed is lit everywhere, with its field open, until it is pressed again.
func TestRodsThatAreShown(t *testing.T) {
	w, _ := openWindow(t, Options{})
	p := w.rods
	wide, narrow := fyne.NewSize(700, 200), fyne.NewSize(250, 200)
	has := func(what string, there bool) {
		t.Helper()
		if said := p.rods.AccessibilityLabel(); strings.Contains(said, what) != there {
			t.Errorf("%q in %q: want %v", what, said, there)
		}
	}
	p.rods.Resize(wide)
	for _, name := range []string{"drain +", "way in +", "room +", "beyond "} {
		has(name, true)
	}
	has("this point", false)
	p.rods.Resize(narrow)
	has("room +", true)
	has("beyond", false)
	w.sight.CutThere(section.Cutting{Of: section.CutDoor})
	p.rods.Resize(narrow)
	has("beyond", true)
	w.standRod(plan.Point{300, 300}, 20)
	p.rods.Resize(wide)
	has("this point", true)
	w.standRod(plan.Point{-900, 300}, 20)
	if !strings.Contains(w.teller.Text(), "not in the room") || !w.sight.HasRod {
		t.Errorf("outside the room: %q, %v", w.teller.Text(), w.sight.HasRod)
	}
	tile := p.layers["tile"]
	if tile.Part != "tile" {
		t.Fatalf("the layers are %v", p.layers)
	}
	w.chooseLayer(tile)
	if w.sight.Chosen != "tile" || w.sides.at != sideFields || w.tray.Station() != job.StationFinish {
		t.Errorf("pressed, %q is lit and %s open", w.sight.Chosen, w.tray.Station())
	}
	w.chooseLayer(tile)
	if w.sight.Chosen != "" {
		t.Errorf("pressed again, %q is lit", w.sight.Chosen)
	}
	for part := range p.layers {
		if !slices.ContainsFunc(w.change.Result.Assembly.Parts, func(a assembly.Part) bool { return a.ID == part }) {
			t.Errorf("no body is called %s", part)
		}
	}
}
