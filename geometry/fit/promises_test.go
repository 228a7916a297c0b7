package fit_test

import (
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/rule"
)

// anyJob is a demo with each of what decides on its floor drawn anew: country, floor, support, fall, exit, height, measured levels.
func anyJob(t *rapid.T, rooms []job.Job) job.Job {
	j := rapid.SampledFrom(rooms).Draw(t, "room").Clone()
	j.Region = rapid.SampledFrom([]string{"UK", "IE", "US", "AU", "NZ", "DE"}).Draw(t, "region")
	for _, e := range []edit.Edit{
		edit.FloorKind(rapid.SampledFrom(job.FloorKinds().Choices).Draw(t, "floor").Value),
		edit.Support(rapid.SampledFrom(job.SupportKinds().Choices).Draw(t, "support").Value),
		edit.Fall(rapid.SampledFrom(job.FallKinds().Choices).Draw(t, "fall").Value),
		edit.ExitKind(rapid.SampledFrom(job.ExitKinds().Choices).Draw(t, "exit").Value),
		edit.Height(rapid.SampledFrom(job.HeightModes().Choices).Draw(t, "height").Value, 90),
	} {
		if k := e.Apply(j); len(k.Validate()) == 0 {
			j = k
		}
	}
	measured := []**float64{nil, &j.AsBuilt.BaseTopMM, &j.AsBuilt.OutletInvertMM, &j.AsBuilt.ExitInvertMM, &j.AsBuilt.TileAtDrainMM}
	if at := measured[rapid.IntRange(0, len(measured)-1).Draw(t, "measured")]; at != nil {
		mm := rapid.Float64Range(-120, 180).Draw(t, "level")
		*at = &mm
	}
	return j
}

// What the answer to a job promises, whatever it is: what stops it, or is not known, is in the verdict and on a card; and each change
// that is offered to end a finding, laid, ends it at that place, breaks no other rule that stops the job, and comes to the floor that was
// told with it.
func TestAnswersKeepTheirPromises(t *testing.T) {
	packs := demotest.Packs(t)
	var rooms []job.Job
	for _, d := range demotest.Rooms(t) {
		rooms = append(rooms, d.Job)
	}
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t, rooms)
		if len(j.Validate()) > 0 {
			t.Skip("means nothing")
		}
		r := geometry.Evaluate(j, packs[j.Region])
		if len(r.Problems) > 0 {
			t.Skip("cannot be worked out")
		}
		a := r.Answer(nil)
		stops, unknown := len(a.Of(rule.Stop)) > 0, len(a.Of(rule.NotKnown)) > 0
		if stops != (a.Standing == geometry.Stops) || !stops && unknown != (a.Standing == geometry.NotKnown) {
			t.Errorf("stopped %v, not known %v, and it is said to be %s", stops, unknown, a.Standing)
		}
		if stops != r.Stops() {
			t.Errorf("cards stop it: %v, findings: %v", stops, r.Stops())
		}
		if stops && a.InHundred() != 0 {
			t.Errorf("it is stopped and comes right in %d of 100", a.InHundred())
		}
		var places []rule.Finding
		of := map[string]bool{}
		for _, c := range a.Cards {
			for _, p := range c.Places {
				places, of[p.Rule.Quantity] = append(places, p.Finding), true
			}
		}
		for _, f := range r.Findings { // of one place a card has the gravest
			if (f.Rule.Severity == rule.Stop || f.Rule.Severity == rule.NotKnown) && !of[f.Rule.Quantity] {
				t.Errorf("%s is on no card", f.Key())
			}
		}
		if len(places) > 0 {
			holdsRemedy(t, r, places[rapid.IntRange(0, len(places)-1).Draw(t, "place")])
		}
	})
}

// holdsRemedy holds what is offered to end a finding against the floor with it.
func holdsRemedy(t *rapid.T, r geometry.Result, f rule.Finding) {
	m, _, ok := fit.RemedyOf(r, f)
	if !ok {
		return
	}
	after := geometry.Evaluate(m.Edit.Apply(r.Stated), r.Pack)
	if len(after.Problems) > 0 {
		t.Fatalf("%s: with %v it cannot be worked out: %v", f.Key(), m.Does, after.Problems)
	}
	broken := map[string]bool{} // rules, as a cut that a trimmer moves to the joist beside it is at another place
	for _, o := range r.Findings {
		broken[o.Rule.ID] = true
	}
	for _, o := range after.Findings {
		if o.Key() == f.Key() {
			t.Errorf("%s: %v leaves it as it is", f.Key(), m.Does)
		}
		if o.Rule.Severity == rule.Stop && !broken[o.Rule.ID] {
			t.Errorf("%s: %v stops it by %s", f.Key(), m.Does, o.Key())
		}
	}
	if got, told := after.Heights.BaseTopMM, m.After.Heights.BaseTopMM; got != told {
		t.Errorf("%s: %v comes to %v, told %v", f.Key(), m.Does, got, told)
	}
}
