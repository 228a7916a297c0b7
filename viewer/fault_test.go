package viewer

import (
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// What cannot be made for a picture is left out of it and said; it used to end
// the program on the drawing thread, or to be left out without a word.
func TestPicturesSayWhatIsLeftOut(t *testing.T) {
	r := demotest.Results(t)[0]
	cut := section.ThroughDrain(r)
	sound := Frame{Scene: NewScene(r, nil), Caps: NewCaps(r, buildup.StageTile, HatchMM, cut)}
	if !sound.Fault().IsZero() || !(Frame{}).Fault().IsZero() {
		t.Fatalf("a sound picture says %v", sound.Fault())
	}
	refuse := func(name message.ID) func(message.Message, float64) error {
		return func(what message.Message, _ float64) error {
			if what.ID == name {
				return errors.New("put in by the test")
			}
			return nil
		}
	}
	for _, name := range []message.ID{"shape.ceiling", "shape.trim", "shape.screen", "shape.screen-foot", "shape.screen-post"} {
		s := (&Scene{refuse: refuse(name)}).of(r, nil)
		want := message.Of("undrawn.dressing", message.In("shape", message.Of(name)))
		if f := (Frame{Scene: s}); !cmp.Equal(f.Fault(), want) {
			t.Errorf("without %s: %v", name, f.Fault())
		}
		if len(s.Bodies) > len(sound.Scene.Bodies) || len(s.Bodies) < len(sound.Scene.Bodies)-3 { // three trims
			t.Errorf("without %s: %d bodies of %d", name, len(s.Bodies), len(sound.Scene.Bodies))
		}
	}
	c := (&Caps{refuse: refuse("part.base")}).of(r, buildup.StageTile, HatchMM, []solid.Cut{cut})
	if f := (Frame{Scene: sound.Scene, Caps: c}); !cmp.Equal(f.Fault(), message.Of("undrawn.cut", message.In("shape", message.Of("part.base")))) || len(c.faces) != len(sound.Caps.faces)-1 {
		t.Errorf("fault %v, %d faces of %d", f.Fault(), len(c.faces), len(sound.Caps.faces))
	}
	// Two faults are two lines.
	s := (&Scene{refuse: refuse("shape.ceiling")}).of(r, nil)
	if f := (Frame{Scene: s, Caps: c}); !cmp.Equal(f.Fault(), message.Lines(s.fault, c.fault)) {
		t.Errorf("two faults: %v", f.Fault())
	}
	// Where two cuts meet, what is kept of a face can fail too.
	corner := section.Corner(r)
	c = (&Caps{refuse: func(_ message.Message, gridMM float64) error {
		if math.IsNaN(gridMM) {
			return nil
		}
		return errors.New("put in by the test")
	}}).of(r, buildup.StageTile, HatchMM, corner[:])
	if f := (Frame{Caps: c}).Fault(); f.ID != "undrawn.cut" {
		t.Errorf("fault %v", f)
	}
}
