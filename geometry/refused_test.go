package geometry

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"underfall/assets"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// A fault of the program, whichever shape it comes in, is the job's refusal: it says
// what broke, that the last change may be what brought it up, and nothing half made
// comes with it. In a stage that works side by side it reads the same.
func TestAFaultInAnyShapeIsARefusal(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	j := job.New()
	shapes := map[string]bool{}
	evaluate(Result{}, j, packs["UK"], &plan.Shaper{Refuse: func(what message.Message, _ float64) error { shapes[what.String()] = true; return nil }})
	placed, built := "shape.shower", "shape.base-beside-channel"
	if !shapes[placed] || !shapes[built] {
		t.Fatalf("the shapes are %v", shapes)
	}
	for _, shape := range []string{placed, built} {
		r := evaluate(Result{}, j, packs["UK"], &plan.Shaper{Refuse: func(what message.Message, _ float64) error {
			if what.String() == shape {
				panic("put in by the test")
			}
			return nil
		}})
		want := job.Problems{{What: message.Of("problem.faulty", message.Name("fault", "put in by the test"))}}
		if diff := cmp.Diff(want, r.Problems); diff != "" {
			t.Errorf("%s: %s", shape, diff)
		}
		if len(r.Assembly.Parts) > 0 || len(r.Measured) > 0 || len(r.Layout.Walls) > 0 || r.Stated.Name != j.Name || r.Settled.Name != j.Name || r.Pack.Region != "UK" || !r.Stops() {
			t.Errorf("%s: something else comes with the refusal", shape)
		}
	}
}

// A job that means nothing is refused in the words of its check, though it could be
// worked out: the colour of a tile changes nothing that is measured.
func TestARefusalIsTheChecksOwn(t *testing.T) {
	for name, change := range map[string]func(*job.Job){
		"a fall of 2 in 1":      func(j *job.Job) { j.Waste.Gradient = 2 },
		"a room too high":       func(j *job.Job) { j.Room.HeightMM = 120000 },
		"a colour that is none": func(j *job.Job) { j.Layers.Shower.Colour = "sand" },
	} {
		j := job.New()
		change(&j)
		want := j.Validate()
		if len(want) == 0 {
			t.Fatalf("%s passes the check", name)
		}
		r := Evaluate(j, rule.Pack{Region: "UK"})
		if diff := cmp.Diff(want, r.Problems); diff != "" || len(r.Assembly.Parts) > 0 || r.Stated.Name != j.Name || r.Settled.Name != j.Name || r.Pack.Region != "UK" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

// A job stops with a problem, or with a finding that stops; findings are gravest
// first, so the first tells.
func TestWhatStopsAJob(t *testing.T) {
	of := func(severities ...rule.Severity) (out []rule.Finding) {
		for _, s := range severities {
			out = append(out, rule.Finding{Rule: rule.Rule{Severity: s}})
		}
		return out
	}
	for _, c := range []struct {
		name     string
		problems job.Problems
		findings []rule.Finding
		want     bool
	}{
		{"nothing", nil, nil, false},
		{"a problem", job.Problems{{}}, nil, true},
		{"a problem beside advice", job.Problems{{}}, of(rule.Advice), true},
		{"advice", nil, of(rule.Advice), false},
		{"for the licensed", nil, of(rule.Licensed, rule.Advice), false},
		{"a stop alone", nil, of(rule.Stop), true},
		{"a stop and more", nil, of(rule.Stop, rule.Advice), true},
	} {
		if got := (Result{Problems: c.problems, Judged: Judged{Findings: c.findings}}).Stops(); got != c.want {
			t.Errorf("%s: stops %v", c.name, got)
		}
	}
}

// A sound job gives every stage: bodies, levels with their spread, measurements and
// the findings the pack makes of them, gravest first.
func TestASoundJobIsWorkedOutToTheEnd(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	r := Evaluate(job.New(), packs["UK"])
	if len(r.Problems) > 0 || len(r.Assembly.Parts) < 5 || len(r.Schedule) < 10 || len(r.Measured) < 30 || len(r.Water.Pieces) != 1 || len(r.Regrids) > 0 {
		t.Errorf("%d parts, %d levels, %d measurements, %d pieces with water: %v", len(r.Assembly.Parts), len(r.Schedule), len(r.Measured), len(r.Water.Pieces), r.Problems)
	}
	if diff := cmp.Diff(packs["UK"].Judge(r.Measured), r.Findings); diff != "" {
		t.Error(diff)
	}
	for _, row := range r.Schedule {
		// The tile at the drain: worked out by hand where spreads are.
		if row.ID.Of == buildup.TileAtDrain && !(row.Value == 108 && row.Worst > 7.79 && row.Worst < 7.81) {
			t.Errorf("%s: %v ± %v", row.Message(), row.Value, row.Worst)
		}
	}
	if p := r.Assembly.Parts[0]; p.Shape.Volume() <= 0 {
		t.Errorf("the first part is %s", p.ID)
	}
}
