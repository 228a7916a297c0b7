package section_test

import (
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/section"
)

// saidOf tells whether a drawing says a name, and whether it is marked.
func saidOf(d section.Drawing, name message.Message) (said, marked bool) {
	for _, m := range d.Marks {
		if m.Said.String() == name.String() {
			return true, m.Of == section.MarkPiece || m.Of == section.MarkPieceInvert
		}
	}
	for _, n := range d.Names {
		if n.Texts[0].String() == name.String() {
			return true, false
		}
	}
	return false, false
}

// Whatever piece of the run a finding speaks of, plan and long section name it just so; marked
// where the finding stops the job.
func TestPiecesAreNamedAsFindingsNameThem(t *testing.T) {
	results := demotest.Results(t)
	for _, change := range []func(*job.Job){
		func(j *job.Job) { j.Drain.OutletTurnDeg = 0 },
		func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{200, 1832}, {200, 1780}}
			j.Waste.Exit.OffsetMM = 120
		},
		func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{600, 1832}} },
		func(j *job.Job) { j.Waste.Gradient = -0.01 },
	} {
		results = append(results, starting(t, change))
	}
	spoken := 0
	for _, r := range results {
		for _, f := range r.Findings {
			s := f.Measurement.Subject
			names := []message.Numbered{s.Piece}
			if s.Of == rule.Leg || s.Of == rule.PieceByPiece {
				names = append(names, message.Numbered{ID: s.Which, Number: s.Number})
			}
			for _, n := range names {
				stops := f.Rule.Severity == rule.Stop
				if n.ID == "" || n.ID == "piece.joint" && !stops || n.ID == "piece.drop" {
					continue
				}
				spoken++
				for of, d := range map[string]section.Drawing{"plan": section.PlanOf(r), "long section": section.LongOf(r)} {
					said, marked := saidOf(d, n.Message())
					if !said || stops && !marked {
						t.Errorf("%s, %s: the %s says %s: %v, marked %v", r.Settled.Name, f.Rule.ID, of, n.Message(), said, marked)
					}
				}
			}
		}
	}
	if spoken < 20 {
		t.Errorf("findings speak of %d pieces", spoken)
	}
}
