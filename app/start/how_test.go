package start

import (
	"context"
	"testing"

	"underfall/assets"
	"underfall/geometry/question"
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
