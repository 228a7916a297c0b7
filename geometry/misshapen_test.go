package geometry

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"testing"

	"underfall/assets"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// Whichever shape of a job cannot be worked out, the job is refused in words
// that name it, and nothing half made comes with the refusal. It used to end in
// a panic or in a part that was not there.
func TestAnyShapeThatFailsIsRefused(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range demos {
		var names []string
		sound := evaluate(Result{}, d.Job, packs[d.Job.Region], &plan.Shaper{Refuse: func(what message.Message, _ float64) error {
			if !slices.Contains(names, what.String()) {
				names = append(names, what.String())
			}
			return nil
		}})
		if len(sound.Problems) > 0 || len(sound.Regrids) > 0 || len(names) < 10 {
			t.Fatalf("%s: %v, %v, %d shapes", d.File, sound.Problems, sound.Regrids, len(names))
		}
		for _, name := range names {
			r := evaluate(Result{}, d.Job, packs[d.Job.Region], &plan.Shaper{Refuse: func(what message.Message, _ float64) error {
				if what.String() == name {
					return errors.New("put in by the test")
				}
				return nil
			}})
			if len(r.Problems) != 1 || r.Problems[0].What.String() != "problem.misshapen{what: "+name+"}" {
				t.Errorf("%s without %s: %v", d.File, name, r.Problems)
			}
			if len(r.Assembly.Parts) > 0 || len(r.Layout.Walls) > 0 || len(r.Measured) > 0 || r.Settled.Name != d.Job.Name || !r.Stops() {
				t.Errorf("%s without %s: something comes with the refusal", d.File, name)
			}
		}
	}
}

// A shape that comes out only on another grid is named in the result, and is
// the same shape to within that grid.
func TestOtherGridsAreNamed(t *testing.T) {
	j := job.New()
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	const name message.ID = "shape.base-beside-channel"
	volume := func(r Result) float64 {
		for _, p := range r.Assembly.Parts {
			if p.ID == "base" {
				return p.Shape.Volume()
			}
		}
		t.Fatal("there is no base")
		return 0
	}
	usual := evaluate(Result{}, j, packs[j.Region], &plan.Shaper{})
	coarse := evaluate(Result{}, j, packs[j.Region], &plan.Shaper{Refuse: func(what message.Message, gridMM float64) error {
		if what.ID == name && gridMM < 1e-3 {
			return errors.New("put in by the test")
		}
		return nil
	}})
	if len(coarse.Problems) > 0 || len(coarse.Regrids) != 1 || !reflect.DeepEqual(coarse.Regrids[0], plan.Regrid{What: message.Of(name), GridMM: 1e-3}) || !coarse.Regrids[0].Coarse() {
		t.Fatalf("problems %v, regrids %v", coarse.Problems, coarse.Regrids)
	}
	// Some 6 m of edges, 69 mm high.
	if a, b := volume(usual), volume(coarse); math.Abs(a-b) > 6000*69*1e-3 {
		t.Errorf("base of %v mm³, on the coarse grid %v", a, b)
	}
}

// A bed that runs out to nothing where the floor is highest is built; it was
// left out without a word, with a gap of millimetres under the base elsewhere.
func TestBedThatRunsOutIsBuilt(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	j := job.New()
	j.Base.AdhesiveMM = 0
	j.SpotLevels = []job.SpotLevel{{At: [2]float64{0, 0}}, {At: [2]float64{2000, 0}}, {At: [2]float64{0, 2000}, LevelMM: 8}, {At: [2]float64{2000, 2000}, LevelMM: 8}}
	r := Evaluate(j, packs[j.Region])
	for _, p := range r.Assembly.Parts {
		if p.ID != "adhesive" {
			continue
		}
		m := p.Mesh()
		if err := m.CheckClosed(); err != nil {
			t.Error(err)
		}
		if got, want := m.Volume(), p.Shape.Volume(); !(want > 1e5) || math.Abs(got-want) > 1e-6*want {
			t.Errorf("mesh of %v mm³, shape of %v", got, want)
		}
		return
	}
	t.Errorf("no bed under the base: %v", r.Problems)
}
