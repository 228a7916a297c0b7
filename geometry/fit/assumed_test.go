package fit_test

import (
	"slices"
	"testing"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/rule"
)

// A waste at +100 lies 200 under the ground outside its wall, which stops the job. The usual way
// outside leads to a gully in the ground, for which that does not matter: added, it is assumed, told
// with its values, and keeps the job from being known until somebody says that it is so.
func TestAnAssumedWayOutsideTurnsNothing(t *testing.T) {
	ways, _ := job.FindList(job.BeyondKey)
	j := job.New()
	ground := 300.0
	j.Room.Walls[3].OutsideGroundMM = &ground
	j.Waste.Exit.Level = job.Exactly(100)
	before := evaluated(t, j)
	stops := func(r geometry.Result) bool {
		return slices.ContainsFunc(r.Findings, func(f rule.Finding) bool { return f.Rule.Quantity == "exit.above-ground" })
	}
	if !stops(before) {
		t.Fatal("the exit does not lie under the ground")
	}
	with := edit.AddItem(ways).Apply(j)
	r := evaluated(t, with)
	a := r.Answer(nil)
	if stops(r) || a.Standing != geometry.NotKnown && a.Standing != geometry.Stops || len(a.Assumed) != 2 {
		t.Errorf("under the ground %v, %s, assumed %v", stops(r), a.Standing, a.Assumed)
	}
	lines := a.Lines()
	const says = "answer.assumed{n: 2, what: [input.told{what: place.item-entry{item: item.waste.beyond{n: 1}, entry: item.waste.beyond.joins}, value: choice.join.gully}, " +
		"input.told{what: place.item-entry{item: item.waste.beyond{n: 1}, entry: item.waste.beyond.lengthMM}, value: 150 mm}]}"
	if got := lines[len(lines)-1].String(); got != says {
		t.Errorf("says %s", got)
	}
	f, found := broken(r, "beyond-assumed")
	if !found || f.Rule.Severity != rule.NotKnown {
		t.Fatal("nothing says that it is assumed")
	}
	// One press says that it is so.
	remedy, _, ok := fit.RemedyOf(r, f)
	if !ok || remedy.Does.ID != "remedy.as-assumed" {
		t.Fatalf("offered %v, %v", ok, remedy.Does)
	}
	so := evaluated(t, remedy.Edit.Apply(with))
	if _, still := broken(so, "beyond-assumed"); still || len(so.Answer(nil).Assumed) != 0 {
		t.Errorf("confirmed, %v are assumed", so.Answer(nil).Assumed)
	}
	// So does stating both.
	for _, e := range ways.Entries() {
		switch e.Key {
		case "lengthMM":
			mm := 400.0
			with = edit.ItemNumber(ways, 0, e, &mm).Apply(with)
		case "joins":
			with = edit.ItemChoice(ways, 0, e, string(job.JoinDrain)).Apply(with)
		}
	}
	if len(with.Standings) != 0 {
		t.Errorf("stated, %v", with.Standings)
	}
}

// Where it is not stated what lies beyond the wall, the card reckons with what is usual in the job's
// country, which stops nothing: a gully beside the wall where codes let a shower's waste into one
// (Approved Document H, 2.21; NCC Volume Three, AS/NZS 3500.2, 4.6: from memory), else a drain in the
// ground (IRC P2602.1, DIN 1986-100: from memory). One more press says that it is so.
func TestTheWayOutsideIsReckonedWithAndConfirmed(t *testing.T) {
	for region, want := range map[string]job.JoinKind{"UK": job.JoinGully, "UK-SC": job.JoinGully, "IE": job.JoinGully, "AU": job.JoinGully,
		"NZ": job.JoinGully, "US": job.JoinDrain, "US-UPC": job.JoinDrain, "DE": job.JoinDrain} {
		j := job.New()
		j.Region = region
		before := evaluated(t, j)
		f, found := broken(before, "beyond-unknown")
		if !found {
			t.Fatalf("%s: all is known", region)
		}
		reckon, _, ok := fit.RemedyOf(before, f)
		if !ok || reckon.Does.ID != "remedy.reckon-with" {
			t.Fatalf("%s: offered %v, %v", region, ok, reckon.Does)
		}
		with := reckon.Edit.Apply(j)
		if b := with.Waste.Beyond; b == nil || b.Joins != want || len(with.OpenUnder(job.BeyondKey)) != 2 {
			t.Fatalf("%s: %+v, open %v", region, b, with.OpenUnder(job.BeyondKey))
		}
		r := evaluated(t, with)
		f, found = broken(r, "beyond-assumed")
		if _, stops := broken(r, "us-gully"); !found || stops {
			t.Fatalf("%s: assumed %v, stops %v", region, found, stops)
		}
		so, _, ok := fit.RemedyOf(r, f)
		if !ok || so.Does.ID != "remedy.as-assumed" {
			t.Fatalf("%s: offered %v, %v", region, ok, so.Does)
		}
		if known := so.Edit.Apply(with); len(known.Standings) > 0 || known.Waste.Beyond == nil {
			t.Errorf("%s: confirmed, %v", region, known.Standings)
		}
	}
}

// Where a drop through the floor comes, and what is usual of a pump or a stack that is put up for the
// waste, is assumed; who drags it there has said so.
func TestAnExitPutSomewhereIsAssumed(t *testing.T) {
	for kind, want := range map[job.ExitKind][]string{
		job.ExitFloor: {"waste.exit.at"},
		job.ExitStack: {"room.stacks[0].at[0]", "room.stacks[0].at[1]"},
		job.ExitPump:  {"waste.exit.at", "waste.pump.flowLPS"},
		job.ExitWall:  nil,
	} {
		j := edit.ExitKind(kind).Apply(job.New())
		for _, key := range want {
			if s := j.StandingOf(key); s != job.Assumed {
				t.Errorf("%s: %s is %q", kind, key, s)
			}
		}
		if len(want) == 0 && len(j.Standings) > 0 {
			t.Errorf("%s: %v", kind, j.Standings)
		}
		if told := len(evaluated(t, j).Answer(nil).Assumed); told != len(j.Standings) {
			t.Errorf("%s: %d told of %d", kind, told, len(j.Standings))
		}
	}
	j := edit.ExitKind(job.ExitFloor).Apply(job.New())
	at := j.Waste.Exit.At
	at[0] += 200
	if dragged := edit.Drag(edit.Handle{Kind: edit.HandleExit}, at).Apply(j); dragged.Waste.Exit.At == j.Waste.Exit.At || len(dragged.Standings) > 0 {
		t.Errorf("dragged to %v: %v", dragged.Waste.Exit.At, dragged.Standings)
	}
}
