package section

import (
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// wallLetters puts the letters of the walls that are cut into them, each once, where most of it is.
func (d *Drawing) wallLetters() {
	most := map[message.Letter]int{} // where each has its largest area
	var order []message.Letter
	for i := range d.Areas {
		letter, ok := d.Areas[i].wall()
		if !ok {
			continue
		}
		at, there := most[letter]
		if !there {
			order = append(order, letter)
		}
		if !there || d.Areas[i].Region.Area() > d.Areas[at].Region.Area() {
			most[letter] = i
		}
	}
	slices.Sort(order)
	for _, letter := range order {
		a := &d.Areas[most[letter]]
		low, high, ok := a.Region.Bounds()
		if !ok {
			continue
		}
		x := (low.X() + high.X()) / 2
		n := Name{Texts: []message.Message{a.Name}, First: true, Disc: letter, BroadMM: high.X() - low.X(),
			Line: [2]plan.Point{{x, low.Y()}, {x, high.Y()}}}
		for _, share := range [...]float64{0.75, 0.6, 0.85, 0.45, 0.3, 0.15} {
			if at := (plan.Point{x, low.Y() + share*(high.Y()-low.Y())}); a.Region.Contains(at, 0) {
				n.Places = append(n.Places, NameAt{At: at})
			}
		}
		d.Names = append(d.Names, n)
	}
}

// wall is the letter of the wall that is cut in the area; false where it is of anything else.
func (a *Area) wall() (l message.Letter, ok bool) {
	if !a.Cut || a.Name.ID != "part.wall" || len(a.Name.Args) == 0 {
		return 0, false
	}
	switch v := a.Name.Args[0].Value.(type) {
	case message.Letter:
		return v, true
	case message.Called:
		return v.Letter, true
	}
	return 0, false
}
