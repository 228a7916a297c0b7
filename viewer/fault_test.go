package viewer

import (
	"errors"
	"math"
	"strings"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// What cannot be made for a picture is left out of it and said; it used to end
// the program on the drawing thread, or to be left out without a word.
func TestPicturesSayWhatIsLeftOut(t *testing.T) {
	r := demotest.Results(t)[0]
	cut := section.ThroughDrain(r)
	sound := Frame{Scene: NewScene(r, nil), Caps: NewCaps(r, buildup.StageTile, HatchMM, cut)}
	if sound.Fault() != "" || (Frame{}).Fault() != "" {
		t.Fatalf("a sound picture says %q", sound.Fault())
	}
	refuse := func(name string) func(string, float64) error {
		return func(what string, _ float64) error {
			if what == name {
				return errors.New("put in by the test")
			}
			return nil
		}
	}
	for _, name := range []string{"the ceiling", "the trim of an edge", "the glass screen", "the foot of the glass screen", "the post of the glass screen"} {
		s := (&Scene{refuse: refuse(name)}).of(r, nil)
		if f := (Frame{Scene: s}); !strings.Contains(f.Fault(), ": "+name+". Move a wall") {
			t.Errorf("without %s: %q", name, f.Fault())
		}
		if len(s.Bodies) > len(sound.Scene.Bodies) || len(s.Bodies) < len(sound.Scene.Bodies)-2 {
			t.Errorf("without %s: %d bodies of %d", name, len(s.Bodies), len(sound.Scene.Bodies))
		}
	}
	c := (&Caps{refuse: refuse("Base")}).of(r, buildup.StageTile, HatchMM, []solid.Cut{cut})
	if f := (Frame{Scene: sound.Scene, Caps: c}); !strings.Contains(f.Fault(), ": Base. Move the cut") || len(c.faces) != len(sound.Caps.faces)-1 {
		t.Errorf("fault %q, %d faces of %d", f.Fault(), len(c.faces), len(sound.Caps.faces))
	}
	// Where two cuts meet, what is kept of a face can fail too.
	corner := section.Corner(r)
	c = (&Caps{refuse: func(_ string, gridMM float64) error {
		if math.IsNaN(gridMM) {
			return nil
		}
		return errors.New("put in by the test")
	}}).of(r, buildup.StageTile, HatchMM, corner[:])
	if !strings.Contains((Frame{Caps: c}).Fault(), "Move the cut") {
		t.Errorf("fault %q", (Frame{Caps: c}).Fault())
	}
}
