package sheet_test

import (
	"slices"
	"strings"
	"testing"

	"underfall/app/sheet"
	"underfall/geometry/boarding"
	"underfall/geometry/demotest"
	"underfall/geometry/unit"
)

// Every board that something is sawn out of has a template at full size with the sizes of it, as the cutting sheet has them; a drain
// before a stud wall one with the studs.
func TestCutOutsHaveTemplates(t *testing.T) {
	cuts, studs := 0, 0
	for _, r := range demotest.Shown(t)[:3] {
		text := textOf(t, r, sheet.Templates)
		boards, err := r.Boarding()
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range boards.Layers {
			for _, p := range l.Pieces {
				for _, c := range p.Cuts {
					cuts++
					if size := book(t).Bare().Say(c.Message()); !strings.Contains(text, strings.SplitN(size, " from", 2)[0]) {
						t.Errorf("%s: board %d: no template of %s", r.Settled.Name, p.Number, size)
					}
				}
			}
		}
		_, _, behind, ok := r.Layout.DrainStuds(&r.Settled)
		if told := strings.Contains(text, "the studs behind it"); told != (ok && len(behind) > 0) {
			t.Errorf("%s: studs are told: %v", r.Settled.Name, told)
		} else if told {
			studs++
		}
	}
	if cuts < 6 || studs == 0 {
		t.Errorf("%d cuts, %d drains before studs", cuts, studs)
	}
}

// Sheets that are laid as they come are not drawn as sawn: which pieces they are is told. Of the boards of 1200 by 600 that the level
// entry is laid with, numbers 1, 7 and 14 are whole (the order lists all pieces with their sizes).
func TestWholeSheetsAreTold(t *testing.T) {
	text := saidOn(drawnPages(t, demotest.Shown(t)[8], sheet.Cutting, sheet.Papers()[0]))
	for _, says := range []string{"Laid as they come, and not drawn: no. 1 and no. 7.", "Laid as it comes, and not drawn: no. 14."} {
		if !strings.Contains(text, says) {
			t.Errorf("not told: %s", says)
		}
	}
}

// Boards are told on few pages, each of them but the last filled for the most part.
func TestCuttingPagesAreFilled(t *testing.T) {
	const leastShare = 0.55
	const roomMM2 = 3e6 // whole rooms are laid with boards, not a shower alone
	for _, r := range demotest.Shown(t) {
		paper := sheet.Papers()[0]
		pages := drawnPages(t, r, sheet.Cutting, paper)
		most := 2
		if boards, err := r.Boarding(); err != nil {
			t.Fatal(err)
		} else if slices.ContainsFunc(boards.Layers, func(l boarding.Layer) bool { return l.Region.Area() > roomMM2 }) {
			most = 4
		}
		if len(pages) > most {
			t.Errorf("%s: %d pages of boards, want %d at most", r.Settled.Name, len(pages), most)
		}
		for k, page := range pages[:len(pages)-1] {
			if share := usedOf(page, paper); share < leastShare {
				t.Errorf("%s: of page %d %.2f is used", r.Settled.Name, k+1, share)
			}
		}
	}
}

// usedOf is how far down a page something is written on it, of the room between its head and its foot.
func usedOf(page *marks, paper sheet.Paper) float64 {
	const headMM, footPoints = 35.0, 55.0
	high, head, foot := paper.HighMM/25.4*72, headMM/25.4*72, 0.0
	for _, x := range page.texts {
		if y := x.room.High[1]; y < high-footPoints { // over the line at the foot
			foot = max(foot, y)
		}
	}
	return (foot - head) / (high - head - footPoints)
}

// An order takes a page of large paper, or two of which the second is worth its paper; no more than two of any.
func TestOrdersTakeFewPages(t *testing.T) {
	const roomShare = 0.25
	for _, r := range inBoth(t) {
		for _, paper := range sheet.Papers() {
			if inches := paper.Key == "letter" || paper.Key == "tabloid"; inches != (r.Settled.Units == unit.Imperial) {
				continue
			}
			pages := drawnPages(t, r, sheet.Order, paper)
			if share := usedOf(pages[len(pages)-1], paper); len(pages) > 2 || share < roomShare {
				t.Errorf("%s, %s, %s: %d pages, of the last %.2f", r.Settled.Name, r.Settled.Units, paper.Key, len(pages), share)
			}
		}
	}
}
