package app

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/section"
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
