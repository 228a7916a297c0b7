package start

import (
	"context"
	"strings"
	"testing"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/question"
	"underfall/geometry/rule"
	"underfall/geometry/unknown"
)

// With a floor that is not known, a card that is told of concrete and of timber says how one would build on either.
func TestACardOfBothFloorsSaysBoth(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	p := question.PracticeIn("UK", shelf)
	f, ok := FirstAnswer(context.Background(), p, packs["UK"], p.Begin())
	if !ok || len(f.Cases) != 2 {
		t.Fatalf("%d cases", len(f.Cases))
	}
	for _, c := range f.Cases {
		want := "start.how.let-in"
		if c.Title.ID == "start.all-others" {
			want = "start.how.slab-or-deck"
		}
		if string(c.How.ID) != want {
			t.Errorf("%s: %s, want %s", c.Title.ID, c.How.ID, want)
		}
	}
}

// A card of what cannot be built names each of two problems; of five, as the demo has them that cannot be built, two and how
// many more there are.
func TestACardNamesWhatStopsIt(t *testing.T) {
	r := demotest.Shown(t)[5]
	a := r.Answer(nil)
	stops := a.Of(rule.Stop)
	if len(stops) < 4 {
		t.Fatalf("%d cards stop it", len(stops))
	}
	c := unknown.Case{Job: r.Stated, Result: r, Answer: a}
	if got := howOf(&c).String(); !strings.Contains(got, string(stops[0].Worst().Rule.Heading().ID)) ||
		!strings.Contains(got, string(stops[1].Worst().Rule.Heading().ID)) || !strings.Contains(got, "and-more") {
		t.Errorf("of %d: %s", len(stops), got)
	}
	if got := stopsOf(stops[:2], &r.Stated).String(); strings.Contains(got, "and-more") ||
		!strings.Contains(got, string(stops[1].Worst().Rule.Heading().ID)) {
		t.Errorf("of two: %s", got)
	}
}

// That a trap is in a joist hangs on where the first joist lies, which is said where nobody has stated that.
func TestACardSaysWhatItHangsOn(t *testing.T) {
	j := demotest.Shown(t)[5].Stated
	card := geometry.Card{Places: []geometry.Place{{Finding: rule.Finding{Measurement: rule.Measurement{Quantity: "trap.in-joist"}}}}}
	if got := stopsOf([]geometry.Card{card}, &j).String(); strings.Contains(got, "rests") {
		t.Errorf("all is stated: %s", got)
	}
	j.SetStanding("floor.joists.firstOffsetMM", job.Assumed)
	if got := stopsOf([]geometry.Card{card}, &j).String(); !strings.Contains(got, "start.how.rests") || !strings.Contains(got, "first") {
		t.Errorf("the first joist is assumed: %s", got)
	}
}
