package app

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"underfall/app/tray"
	"underfall/geometry"
	"underfall/geometry/chance"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// The standing on the plate says what its words say: a floor that nothing stops as planned
// is no good news where a build may break what stops it more often than in 5 of 100.
func TestTheSummaryIsTheAnswer(t *testing.T) {
	w, _ := openWindow(t, Options{})
	p := w.findings
	r := w.desk.Result()
	r.Findings = nil
	f := rule.Rule{ID: "made-up", Quantity: "trap.seal", Compare: rule.AtLeast, Limit: 50}
	stop, advice := f, f
	stop.Severity, advice.Severity = rule.Stop, rule.Advice
	found := func(x rule.Rule) []rule.Finding {
		return []rule.Finding{{Rule: x, Measurement: rule.Measurement{Value: 40}}}
	}
	for _, c := range []struct {
		findings []rule.Finding
		share    float64
		want     geometry.Standing
		says     string
	}{
		{nil, 0.05, geometry.Sound, "Can be built as drawn."},
		{nil, 0.06, geometry.Tight, "too little to spare"},
		{found(advice), 0, geometry.Tight, "1 thing to settle"},
		{found(stop), 0, geometry.Stops, "Can't be built as drawn: 1 problem."},
	} {
		r.Findings = c.findings
		p.counted = &chance.Chances{Fits: 1, Risks: []chance.Risk{{Rule: stop, Probability: c.share}}}
		p.fill(r)
		if p.plate.Standing() != c.want || !strings.Contains(p.plate.Headline(), c.says) {
			t.Errorf("%v in %v: “%s” in %v, want %v", c.findings, c.share, p.plate.Headline(), p.plate.Standing(), c.want)
		}
		if behind := p.plate.Behind(); !strings.Contains(behind, "Raise") || strings.Contains(behind, "of 100 builds") == (c.want == geometry.Stops) {
			t.Errorf("behind it: %s", behind)
		}
	}
}

// The standing cautions are one press away, by the stage of work in which they bite.
func TestCautionsOfTheWork(t *testing.T) {
	w, _ := openWindow(t, Options{})
	l := w.findings.cautions
	if n := len(w.desk.Result().Cautions); n < 5 || l.head.Text != fmt.Sprintf("%d cautions of the work", n) || l.box.Visible() {
		t.Errorf("“%s” for %d, open: %v", l.head.Text, n, l.box.Visible())
	}
	test.Tap(l.head)
	if !l.box.Visible() {
		t.Error("pressed they do not show")
	}
	var said []string
	for _, o := range l.box.Objects {
		said = append(said, o.(*widget.Label).Text)
	}
	text := strings.Join(said, "\n")
	for _, of := range []string{"Before anything is cut or drilled", "Electrical zones", "Silica dust", "When it is handed over", "Scalding"} {
		if !strings.Contains(text, of) {
			t.Errorf("%q is not said in\n%s", of, text)
		}
	}
}

// Another theme changes nothing of what has been found and counted.
func TestThemeKeepsChances(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the count", func() bool { return w.findings.answer.Counted })
	said := w.findings.later.Text
	w.toggleTheme()
	if w.findings.counted == nil || w.findings.later.Text != said {
		t.Errorf("another theme: “%s” instead of “%s”", w.findings.later.Text, said)
	}
}

// After a moment's rest the chances are counted, listed under the findings and
// told on their cards.
func TestChancesAreShown(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the count", func() bool { return w.findings.answer.Counted })
	listed := 0
	for _, c := range w.findings.cards {
		if risk := c.of.Worst().Risk; risk != nil {
			listed++
			if risk.Planned || risk.Probability <= 0 {
				t.Errorf("%+v is listed", risk)
			}
			c.Tapped(nil)
		}
	}
	if listed == 0 {
		t.Error("nothing is listed that may go wrong")
	}
	w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Former.Slope = 1.0 / 45 }))
	until(t, "the next count", func() bool { return !w.findings.answer.Counted })
}

// A card that is of one field opens that: the fall of the floor, and a doorway's height of the doorway
// that is meant.
func TestCardsOpenTheirField(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.showPanels()
	tap := func(rule string) string {
		until(t, rule, func() bool { return cardOf(w, rule) != nil })
		cardOf(w, rule).Tapped(nil)
		e, ok := w.window.Canvas().Focused().(interface{ SelectedText() string })
		if !ok {
			t.Fatalf("%s opens no field", rule)
		}
		return e.SelectedText() // all of it, so that typing takes its place
	}
	w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) {
		j.Former.Slope = 0.005
		d := j.Room.Doorways[0]
		d.OffsetMM, d.WidthMM, d.HeightMM = 200, 760, 1500
		j.Room.Doorways = append(j.Room.Doorways, d)
	}))
	if got := tap("uk-fall-min"); got != "1:200" {
		t.Errorf("the fall of the floor opens “%s”", got)
	}
	if got := tap("doorway-height"); got != "1500" {
		t.Errorf("the height of the second doorway opens “%s”", got)
	}
}

// The card of what is not stated opens the group where it is.
func TestCardOpensWhereTheWayOutsideIsStated(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.showPanels()
	w.begin(job.New())
	of := func() *findingCard { return cardOf(w, "beyond-unknown") }
	until(t, "the card", func() bool { return of() != nil })
	of().Tapped(nil)
	if o, _ := w.tray.Reveal("waste.beyond"); w.tray.Station() != job.StationWayOut || o == nil || !o.Visible() {
		t.Errorf("open %v, it shows %v", w.tray.Station(), o)
	}
}

// A 0 that is no measure is told in words under its field, until there is a number.
func TestNoughtsAreTold(t *testing.T) {
	w, _ := openWindow(t, Options{})
	row := func() *tray.NumberRow { return numberField(t, w, "drain.lengthMM") }
	set := func(mm float64) {
		p, _ := job.Find("drain.lengthMM")
		w.desk.Do(edit.Number(p, mm))
	}
	set(0)
	// The longest that it is sold in within the shower of 1400 less 13 at both ends.
	until(t, "the words", func() bool { return row().Field.Below != "" })
	if got := row().Field.Below; got != "0: as long as its side, 1200 mm" {
		t.Errorf("“%s”", got)
	}
	set(900)
	until(t, "the number", func() bool { return row().Field.Below == "" })
}
