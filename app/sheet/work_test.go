package sheet_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"underfall/app/sheet"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/sequence"
)

// saidOn is all that is written on some pages, in the order it is written, with one space between words.
func saidOn(pages []*marks) string {
	var all []string
	for _, page := range pages {
		for _, x := range page.texts {
			all = append(all, strings.Fields(x.text)...)
		}
	}
	return strings.Join(all, " ")
}

// A caution stands under the step in which it bites, before the next one, whole and once.
func TestCautionsStandWhereTheyBite(t *testing.T) {
	for _, r := range inBoth(t) {
		text := saidOn(drawnPages(t, r, sheet.Fitter, sheet.Papers()[0]))
		b := book(t).In(r.Settled.Units).Drawn()
		_, text, found := strings.Cut(text, b.Text("sheet.work"))
		if !found {
			t.Fatalf("%s: no order of work", r.Settled.Name)
		}
		said, steps := map[string]bool{}, sequence.Of(&r)
		for i, s := range steps {
			_, rest, found := strings.Cut(text, strings.Join(strings.Fields(b.Text(s.Name())), " "))
			if !found {
				t.Errorf("%s: no step %s", r.Settled.Name, s.ID)
				continue
			}
			if i+1 < len(steps) {
				rest, _, _ = strings.Cut(rest, strings.Join(strings.Fields(b.Text(steps[i+1].Name())), " "))
			}
			for _, id := range s.Minds {
				said[id] = true
				if says := cautionSaid(&r, id, b.Say); !strings.Contains(rest, says) {
					t.Errorf("%s: “%s” does not stand under %s", r.Settled.Name, says, s.ID)
				}
			}
		}
		if len(said) != len(r.Cautions) || len(said) < 5 {
			t.Errorf("%s: %d of %d cautions stand under steps", r.Settled.Name, len(said), len(r.Cautions))
		}
	}
}

// cautionSaid is the caution of a rule as it begins, up to what to do.
func cautionSaid(r *geometry.Result, id string, say func(message.Message) string) string {
	for i := range r.Cautions {
		if of := &r.Cautions[i].Rule; of.ID == id {
			return strings.Join(strings.Fields(say(of.Heading())+": "+say(of.Text())), " ")
		}
	}
	return ""
}

// The heights that a fitter's sheet begins with stand apart, each within its cell, as large as all of them can be: ten points at least.
func TestTheHeightsStandInTheirCells(t *testing.T) {
	const least, apart = 10.0, 9.0 // points
	for _, r := range inBoth(t) {
		for _, paper := range [...]sheet.Paper{sheet.Papers()[0], sheet.Papers()[2]} {
			var row []said
			for _, x := range drawnPages(t, r, sheet.Fitter, paper)[0].texts {
				const title = 15
				if x.size >= least && x.size < title && strings.ContainsAny(x.text, "0123456789½¼¾⅛⅜⅝⅞") {
					row = append(row, x)
				}
			}
			if len(row) < 5 {
				t.Errorf("%s, %s, %s: %d heights", r.Settled.Name, r.Settled.Units, paper.Key, len(row))
			}
			for i := range len(row) - 1 {
				if free := row[i+1].room.Low[0] - row[i].room.High[0]; free < apart {
					t.Errorf("%s, %s, %s: “%s” stands %.1f points before “%s”", r.Settled.Name, r.Settled.Units, paper.Key,
						row[i].text, free, row[i+1].text)
				}
			}
		}
	}
}

// Each hole through a joist is told once, with the level of its middle and with what the staff reads down to it: from a line a metre over the
// datum, both add up to a metre as they are read. The order of work leads there.
func TestHolesInJoistsAreToldOnce(t *testing.T) {
	const lineMM, holes = 1000, 8
	row := regexp.MustCompile(`([+-]?\d+) (\d+) (?:not )?kept`)
	said := 0
	for _, r := range demotest.Shown(t) {
		before, work, _ := strings.Cut(saidOn(drawnPages(t, r, sheet.Fitter, sheet.Papers()[0])), "Order of work")
		rows := row.FindAllStringSubmatch(before, -1)
		for _, x := range rows {
			level, _ := strconv.Atoi(x[1])
			down, _ := strconv.Atoi(x[2])
			if off := level + down - lineMM; off < -1 || off > 1 {
				t.Errorf("%s: a level of %d is read down as %d", r.Settled.Name, level, down)
			}
		}
		said += len(rows)
		if len(rows) > 0 && (!strings.Contains(work, "listed under Holes in joists") || regexp.MustCompile(`Joist \d+ from`).MatchString(work)) {
			t.Errorf("%s: the order of work has it that %s", r.Settled.Name, work)
		}
	}
	if said != holes {
		t.Errorf("%d holes are told, want %d", said, holes)
	}
}

// A fitter takes few pages along, one more of Letter, which is less high, where holes through many joists are listed; and the last of them is
// not almost bare: at least a quarter of it has something on it.
func TestTheFittersLastPageIsWorthItsPaper(t *testing.T) {
	const usual, manyHoles, roomShare = 5, 8, 0.25
	for _, r := range inBoth(t) {
		for _, paper := range [...]sheet.Paper{sheet.Papers()[0], sheet.Papers()[2]} {
			most := usual
			if len(r.Joists) >= manyHoles && paper.Key == "letter" {
				most++
			}
			if r.Stops() { // what stops it is listed besides
				most++
			}
			pages := drawnPages(t, r, sheet.Fitter, paper)
			if share := usedOf(pages[len(pages)-1], paper); len(pages) > most || share < roomShare {
				t.Errorf("%s, %s, %s: %d pages, of the last %.2f", r.Settled.Name, r.Settled.Units, paper.Key, len(pages), share)
			}
		}
	}
}
