package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// cardOf is the first card whose worst place breaks a rule; nil without one.
func cardOf(w *mainWindow, rule string) *findingCard {
	for _, c := range w.findings.cards {
		if c.of.Worst().Rule.ID == rule {
			return c
		}
	}
	return nil
}

// detailsOf are the texts in the details of a card.
func detailsOf(c *findingCard) string {
	var told []string
	for _, o := range c.details.Objects {
		if l, ok := o.(*widget.Label); ok {
			told = append(told, l.Text)
		}
	}
	return strings.Join(told, "\n")
}

// A card that says a joist is in the way has a button that cuts it out between trimmers, and
// says what that asks for; made, the finding is gone. On a joist at the wall it says why not.
func TestCardCutsTheJoistOut(t *testing.T) {
	w, _ := openWindow(t, Options{})
	across := demotest.Rooms(t)[2].Job.Clone()
	demotest.AcrossJoists(&across, 150)
	last := demotest.Rooms(t)[2].Job.Clone()
	last.Floor.Joists.FirstOffsetMM = 100
	card := func() *findingCard { return cardOf(w, "trap-joist") }
	open := func(j job.Job) string {
		w.begin(j)
		until(t, "the finding", func() bool { return w.findings.result.Settled.Name == j.Name && card() != nil })
		w.findings.open = ""
		card().Tapped(nil)
		return detailsOf(card())
	}
	last.Name = "at the wall"
	if told := open(last); card().remedy != nil || !strings.Contains(told, "no joist on its other side carries the trimmers") {
		t.Errorf("at the wall: %s", told)
	}
	told := open(across)
	const does = "Cut the joist out between trimmers"
	if c := card(); c.remedy == nil || c.remedy.Text != does || !strings.Contains(told, "structural engineer") {
		t.Fatalf("no remedy, or without its caution: %s", told)
	}
	// While the job stays the same nothing is worked out again; another job's is its own.
	for key, known := range w.findings.remedies {
		known.remedy.Does = message.Of("app.use")
		w.findings.remedies[key] = known
	}
	shown := w.findings.result
	w.findings.fill(shown)
	if text := card().remedy.Text; text != theme.Word("app.use") {
		t.Errorf("the same job once more: %q", text)
	}
	other := shown
	other.Stated.Notes = "another"
	w.findings.fill(other)
	if text := card().remedy.Text; text != does {
		t.Errorf("another job: %q", text)
	}
	card().remedy.OnTapped()
	until(t, "the change", func() bool { return len(w.desk.Job().Floor.Joists.Trims) == 1 && card() == nil })
}

// The card of a pipe that lies bare in the room boxes it in, and says what that asks for.
func TestCardBoxesThePipeIn(t *testing.T) {
	w, _ := openWindow(t, Options{})
	j := job.New()
	j.Name, j.Drain.OutletTurnDeg, j.Waste.Exit = "bare", 0, job.Exit{Kind: job.ExitPipe, At: plan.Point{2300, 1832}}
	card := func(rule string) *findingCard { return cardOf(w, rule) }
	w.begin(j)
	until(t, "the finding", func() bool { return w.change.Result.Settled.Name == "bare" && card("pipe-exposed") != nil })
	w.findings.open = ""
	c := card("pipe-exposed")
	c.Tapped(nil)
	told := strings.Contains(detailsOf(c), "Agree the box with the customer")
	if c.remedy == nil || c.remedy.Text != "Box the pipe in" || !told {
		t.Fatalf("no remedy, or without what it asks for: %v", told)
	}
	c.remedy.OnTapped()
	until(t, "the change", func() bool {
		return w.desk.Job().Waste.Boxing != nil && card("pipe-exposed") == nil && card("pipe-boxed") != nil
	})
}

// The card of a run that does not go together, as it has no bend and no room for its fittings,
// turns the outlet that looks away from the exit.
func TestCardTurnsTheOutlet(t *testing.T) {
	w, _ := openWindow(t, Options{})
	j := job.New()
	j.Name, j.Drain.OutletTurnDeg = "away", 0
	card := func() *findingCard {
		for _, c := range w.findings.cards {
			if c.key() == "run.turn-off" {
				return c
			}
		}
		return nil
	}
	w.begin(j)
	until(t, "the finding", func() bool { return w.change.Result.Settled.Name == "away" && card() != nil })
	w.findings.open = ""
	card().Tapped(nil)
	if c := card(); c.remedy == nil || c.remedy.Text != "Turn the trap's outlet to the left" {
		t.Fatalf("no remedy: %+v", c.remedy)
	}
	card().remedy.OnTapped()
	until(t, "the change", func() bool { return w.desk.Job().Drain.OutletTurnDeg == 180 && card() == nil })
}

// The card of a pipe that is too flat and too small puts all of its places right at one press,
// says of what that is made, and takes it back at once.
func TestCardPutsAllPlacesRight(t *testing.T) {
	w, _ := openWindow(t, Options{})
	j := job.New()
	j.Name, j.Waste.NominalMM, j.Waste.OutsideDiameterMM, j.Waste.BoreMM, j.Waste.Gradient = "flat", 40, 40, 36, 0.005
	j.Water.ShowerFlowsLPS = []float64{0.7}
	card := func() *findingCard {
		for _, c := range w.findings.cards {
			if c.key() == "pipe.gradient" {
				return c
			}
		}
		return nil
	}
	w.begin(j)
	until(t, "the finding", func() bool { return w.change.Result.Settled.Name == "flat" && card() != nil })
	w.findings.open = ""
	card().Tapped(nil)
	c := card()
	if told := detailsOf(c); c.all == nil || c.all.Text != "Put all 4 places right" || !strings.Contains(told, "– Take the next larger pipe") {
		t.Fatalf("not all are put right: %s", told)
	}
	c.all.OnTapped()
	until(t, "the change", func() bool { return w.desk.Job().Waste.NominalMM > 40 && card() == nil })
	w.desk.Undo()
	until(t, "it taken back", func() bool { return w.desk.Job().Waste.NominalMM == 40 && card() != nil })
}
