package section_test

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// saying are the names of a drawing whose fullest text has an id.
func saying(d section.Drawing, id message.ID) (out []section.Name) {
	for _, n := range d.Names {
		if n.Texts[0].ID == id {
			out = append(out, n)
		}
	}
	return out
}

// The cutting plan of the starting job, whose boards are laid by hand in the boarding's own test: a
// row of 600 by 1400 and one of 300, notched, and a strip of 635 by 29.5, from two sheets of 1500 by 600; the
// former's planes and what lies level. A layer's upper left corner is 190 down from the drawing's top.
func TestCuttingPlanByHand(t *testing.T) {
	d := section.BoardsOf(starting(t, func(j *job.Job) { j.SpotLevels = nil }))
	const head = 190
	for name, c := range map[string]struct {
		at   plan.Point
		part string
	}{
		// The base lies with its back up, 900 deep: its first row is the lower one.
		"first row":      {plan.Point{700, -head - 600}, "boards"},
		"behind the way": {plan.Point{300, -head - 15}, "boards"},
		"the pipe's way": {plan.Point{300, -head - 60}, ""},
		"beside it":      {plan.Point{-10, -head - 300}, ""},
		// The sheets begin a row of their own, 300 under the layers.
		"sheet": {plan.Point{1450, -head - 900 - 300 - head - 300}, "sheet"},
	} {
		if a, _ := d.At(c.at); a.PartID != c.part {
			t.Errorf("%s: %q", name, a.PartID)
		}
	}
	// In the layer and on its sheet, and once in the list.
	for id, want := range map[message.ID]int{"boarding.piece": 2 + 1, "boarding.notched": 2 + 1, "boarding.wedge": 1 + 1} {
		got := len(saying(d, id))
		for _, l := range d.List.Lines {
			if l.Text.ID == id {
				got++
			}
		}
		if got < want {
			t.Errorf("%s is written %d times, want %d", id, got, want)
		}
	}
	const sheets = "boards.stock{n: 2, length: 1500 mm, width: 600 mm, thickness: 69 mm, whole: 0}"
	if stock := saying(d, "boards.stock"); len(stock) != 1 || stock[0].Texts[0].String() != sheets {
		t.Errorf("stock %v", stock)
	}
	// Each sheet that is drawn has the number that its pieces are listed with.
	p, err := starting(t, func(j *job.Job) { j.SpotLevels = nil }).Boarding()
	if err != nil {
		t.Fatal(err)
	}
	numbers := map[string]bool{}
	for _, n := range saying(d, "boards.sheet") {
		numbers[n.Texts[0].String()] = true
	}
	for _, x := range p.Layers[0].Pieces {
		if says := fmt.Sprintf("boards.sheet{n: %d}", x.Sheet); !numbers[says] {
			t.Errorf("piece %d: no %s among %v", x.Number, says, numbers)
		}
	}
	// All that is written lies within what is looked at first.
	for _, n := range d.Names {
		for _, p := range n.Places {
			if p.At.X() < d.FocusLow.X()-1 || p.At.X() > d.FocusHigh.X()+1 || p.At.Y() < d.FocusLow.Y()-1 || p.At.Y() > d.FocusHigh.Y()+1 {
				t.Errorf("%s is written at %v, out of sight", n.Texts[0], p.At)
			}
		}
	}
}

// Of mortar there is nothing to saw.
func TestCuttingPlanOfMortar(t *testing.T) {
	d := section.BoardsOf(starting(t, func(j *job.Job) { j.Base.Screed, j.Former.Mortar = true, true }))
	if len(d.Areas)+len(d.Names) != 0 {
		t.Errorf("of mortar %d areas and %d names", len(d.Areas), len(d.Names))
	}
	if math.IsNaN(d.High.X()) || d.High != (plan.Point{}) {
		t.Errorf("nothing reaches up to %v", d.High)
	}
}
