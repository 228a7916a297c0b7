package app

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2/widget"
	"underfall/geometry/chance"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// A floor that nothing stops as planned is no good news where a build may break what stops
// it more often than in 5 of 100.
func TestRisksOfStopsAreNoGoodNews(t *testing.T) {
	w, _ := openWindow(t, Options{})
	p := w.findings
	r := w.desk.Result()
	if r.Stops() || r.Risky() {
		t.Fatal("something is wrong with the starting job")
	}
	for _, c := range []struct {
		severity rule.Severity
		share    float64
		want     widget.Importance
	}{{rule.Stop, 0.05, widget.SuccessImportance}, {rule.Stop, 0.06, widget.WarningImportance}, {rule.Advice, 0.9, widget.SuccessImportance}} {
		p.risks = []chance.Risk{{Rule: rule.Rule{ID: "made-up", Severity: c.severity}, Planned: true, Probability: c.share}}
		p.fill(r)
		told := strings.Contains(p.summary.Text, word("app.may-stop"))
		if p.summary.Importance != c.want || told != (c.want == widget.WarningImportance) {
			t.Errorf("%s in %v: %v, want %v", c.severity, c.share, p.summary.Importance, c.want)
		}
	}
}

// Another theme changes nothing of what has been found and counted.
func TestThemeKeepsChances(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the count", func() bool { return !w.findings.stale && len(w.findings.risks) > 0 })
	said := w.findings.later.Text
	w.toggleTheme()
	if w.findings.stale || w.findings.later.Text != said {
		t.Errorf("another theme: “%s” instead of “%s”", w.findings.later.Text, said)
	}
}

// After a moment's rest the chances are counted, listed under the findings and
// told on their cards.
func TestChancesAreShown(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the count", func() bool { return !w.findings.stale && len(w.findings.risks) > 0 })
	listed := 0
	for _, c := range w.findings.cards {
		if c.group.risk != nil {
			listed++
			if c.group.risk.Planned || c.group.risk.Probability <= 0 {
				t.Errorf("%+v is listed", c.group.risk)
			}
			c.Tapped(nil)
		}
	}
	if listed == 0 {
		t.Error("nothing is listed that may go wrong")
	}
	w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Former.Slope = 1.0 / 45 }))
	until(t, "the next count", func() bool { return w.findings.stale })
}

// A card that is of one field opens that: the fall of the floor, and a doorway's height of the doorway
// that is meant.
func TestCardsOpenTheirField(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.showPanels()
	tap := func(rule string) *entry {
		until(t, rule, func() bool {
			return slices.ContainsFunc(w.findings.cards, func(c *findingCard) bool { return c.group.findings[0].Rule.ID == rule })
		})
		for _, c := range w.findings.cards {
			if c.group.findings[0].Rule.ID == rule {
				c.Tapped(nil)
			}
		}
		e, ok := w.window.Canvas().Focused().(*entry)
		if !ok {
			t.Fatalf("%s opens no field", rule)
		}
		return e
	}
	w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) {
		j.Former.Slope = 0.005
		d := j.Room.Doorways[0]
		d.OffsetMM, d.WidthMM, d.HeightMM = 200, 760, 1500
		j.Room.Doorways = append(j.Room.Doorways, d)
	}))
	if e := tap("uk-fall-min"); e.Text != "1:200" {
		t.Errorf("the fall of the floor opens “%s”", e.Text)
	}
	if e := tap("doorway-height"); e.Text != "1500" {
		t.Errorf("the height of the second doorway opens “%s”", e.Text)
	}
}

// A 0 that is no measure is told in words under its field, until there is a number.
func TestNoughtsAreTold(t *testing.T) {
	w, _ := openWindow(t, Options{})
	row := func() *numberRow {
		for _, r := range w.inputs.rows {
			if n, ok := r.(*numberRow); ok && n.key == "drain.lengthMM" {
				return n
			}
		}
		t.Fatal("no length of the drain")
		return nil
	}
	set := func(mm float64) {
		p, _ := job.Find("drain.lengthMM")
		w.desk.Do(edit.Number(p, mm))
	}
	set(0)
	// The longest that it is sold in within the shower of 1400 less 13 at both ends.
	until(t, "the words", func() bool { return row().zero.Visible() })
	if got := row().zero.Text; got != "0: as long as its side, 1200 mm" {
		t.Errorf("“%s”", got)
	}
	set(900)
	until(t, "the number", func() bool { return !row().zero.Visible() })
}
