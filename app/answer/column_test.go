package answer_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"underfall/app/answer"
	"underfall/app/control"
	"underfall/app/roomtest"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/chance"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
	"underfall/geometry/unknown"
)

// asked is what a column has asked of its window.
type asked struct {
	*answer.Column
	found  rule.Finding
	figure geometry.Figure
	field  string
	list   message.ID
	job    job.Job
	did    bool
}

// columnOf is a column that shows a job, with what can be done about it.
func columnOf(t *testing.T, j job.Job) *asked {
	t.Helper()
	a := &asked{job: j}
	look := roomtest.British(t)
	a.Column = answer.NewColumn(look, control.NewKeys(), answer.Asks{
		ShowFinding: func(f rule.Finding) { a.found = f }, ShowFigure: func(f geometry.Figure) { a.figure = f },
		ToField: func(key string) { a.field = key }, Do: func(e edit.Edit) { a.job, a.did = e.Apply(a.job), true },
		Try:   func(all []fit.Offer, at int) { a.job, a.did = all[at].Edit.Apply(a.job), true },
		Lists: []message.ID{answer.HeightsList, "app.runs"}, List: func(name message.ID) { a.list = name },
		FindRuns: func() { a.list = "runs that are looked for" },
		Shown:    func(geometry.Result, geometry.Answer) {},
	})
	a.show(t)
	return a
}

// show shows the job as it is by now.
func (a *asked) show(t *testing.T) {
	t.Helper()
	r := geometry.Evaluate(a.job, demotest.Packs(t)[a.job.Region])
	if len(r.Problems) > 0 {
		t.Fatal(r.Problems)
	}
	a.Show(r)
	all, err := answer.OffersOf(context.Background(), r)
	if err != nil {
		t.Fatal(err)
	}
	a.ShowOffers(all)
}

// has tells whether there is a card of a rule.
func (a *asked) has(id string) bool {
	return slices.ContainsFunc(a.Answer().Cards, func(c geometry.Card) bool { return c.Worst().Rule.ID == id })
}

// The standing on the plate says what its words say: a floor that nothing stops as planned
// is no good news where a build may break what stops it more often than in 5 of 100.
func TestThePlateStandsAsTheAnswer(t *testing.T) {
	a := columnOf(t, roomtest.First(t))
	r := a.Result()
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
		a.Show(r)
		a.ShowRisks(chance.Chances{Fits: 1, Risks: []chance.Risk{{Rule: stop, Probability: c.share}}})
		p := a.Plate()
		if p.Standing() != c.want || !strings.Contains(p.Headline(), c.says) {
			t.Errorf("%v in %v: “%s” in %v, want %v", c.findings, c.share, p.Headline(), p.Standing(), c.want)
		}
		if behind := p.Behind(); !strings.Contains(behind, "Raise") || strings.Contains(behind, "in 100") == (c.want == geometry.Stops) {
			t.Errorf("behind it: %s", behind)
		}
	}
}

// A figure of the plate, pressed, asks for the place where it is to be seen: the step of the first demo
// at an open edge of the shower, the way out at the wall it leaves through.
func TestFiguresLeadToTheirPlaces(t *testing.T) {
	a := columnOf(t, roomtest.First(t))
	r := a.Result()
	for i, f := range r.Figures() {
		a.Plate().PressFigure(i)
		if a.figure.Of.ID != f.Of.ID || a.figure.At == ([3]float64{}) {
			t.Errorf("%s leads to %s at %v", f.Of.ID, a.figure.Of.ID, a.figure.At)
		}
		if leads := f.Of.ID == "figure.way-out"; f.AlongRun != leads {
			t.Errorf("%s lies along the run: %v", f.Of.ID, f.AlongRun)
		}
	}
	step := plan.Point{r.Figures()[0].At[0], r.Figures()[0].At[1]}
	nearest := 1e9
	for _, e := range r.Layout.Edges {
		if e.Wall < 0 {
			nearest = min(nearest, plan.DistanceToSegment(step, e.A, e.B))
		}
	}
	if nearest > 1 {
		t.Errorf("the step is shown %v from the open edges", nearest)
	}
	a.Plate().PressHeight()
	if a.list != answer.HeightsList {
		t.Errorf("what sets the height leads to %q", a.list)
	}
}

// The headline, pressed, goes to the first card that makes it so, at its gravest place however often it is
// pressed: to what is not known, to what stops it, to what a build may break. Of a sound job it goes nowhere.
func TestTheHeadlineLeadsToItsCard(t *testing.T) {
	unstated := roomtest.First(t)
	unstated.Waste.Beyond = nil
	a := columnOf(t, unstated)
	inEnglish(t, a.Object(nil, container.NewVBox()), fyne.NewSize(300, 600))
	for range 2 {
		if a.Plate().PressHeadline(); a.found.Rule.ID != "beyond-unknown" || a.Details() == "" {
			t.Errorf("“%s” leads to %q, with details “%s”", a.Plate().Headline(), a.found.Rule.ID, a.Details())
		}
	}
	// By its keys as well.
	for _, key := range []fyne.KeyName{fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace} {
		a.found = rule.Finding{}
		for _, o := range test.LaidOutObjects(a.Plate()) {
			if area, is := o.(*control.Area); is && area.Called() == a.Plate().Headline() {
				area.TypedKey(&fyne.KeyEvent{Name: key})
			}
		}
		if a.found.Rule.ID != "beyond-unknown" {
			t.Errorf("by %s it leads to %q", key, a.found.Rule.ID)
		}
	}
	r := a.Result()
	f := rule.Rule{ID: "made-up", Quantity: "trap.seal", Compare: rule.AtLeast, Limit: 50, Severity: rule.Stop}
	place := func(value float64) rule.Finding {
		return rule.Finding{Rule: f, Measurement: rule.Measurement{Value: value}}
	}
	r.Findings = []rule.Finding{place(40), place(20)}
	a.Show(r)
	for range 2 {
		if a.Plate().PressHeadline(); a.found.Rule.ID != f.ID || a.found.Measurement.Value != 20 {
			t.Errorf("“%s” leads to %q of %v", a.Plate().Headline(), a.found.Rule.ID, a.found.Measurement.Value)
		}
	}
	r.Findings, a.found = nil, rule.Finding{}
	a.Show(r)
	if a.Plate().PressHeadline(); a.found.Rule.ID != "" {
		t.Errorf("“%s” leads to %q", a.Plate().Headline(), a.found.Rule.ID)
	}
	a.ShowRisks(chance.Chances{Fits: 1, Risks: []chance.Risk{{Rule: f, Probability: 0.06}}})
	if a.Plate().PressHeadline(); a.found.Rule.ID != f.ID {
		t.Errorf("“%s” leads to %q", a.Plate().Headline(), a.found.Rule.ID)
	}
}

// The cards say what is to be settled for whom, offer what was tried, the first of all filled, and lead
// to place and field.
func TestCardsOfWhatIsToBeSettled(t *testing.T) {
	j := roomtest.First(t)
	j.Waste.Beyond = nil
	a := columnOf(t, j)
	told := strings.Join(a.Says(), "\n")
	for _, want := range []string{"To settle: 3", "1 for a specialist", "checks before the pipe is covered", "To note: 2"} {
		if !strings.Contains(told, want) {
			t.Errorf("%q is not said in\n%s", want, told)
		}
	}
	const reckon = "Reckon with a gully 150 from the wall"
	if got := a.Offered("beyond-unknown"); !slices.Equal(got, []string{reckon, "Open its field"}) {
		t.Fatalf("offered %q", got)
	}
	if !strings.Contains(told, "Then instead: Where the waste joins is assumed") {
		t.Errorf("the price is not said in\n%s", told)
	}
	if !a.PressOffer("beyond-unknown", "Open its field") || a.field != job.BeyondKey {
		t.Errorf("leads to %q", a.field)
	}
	if !a.Press("beyond-unknown") || a.found.Rule.ID != "beyond-unknown" || !strings.Contains(a.Details(), reckon) {
		t.Errorf("pressed it shows %q: %s", a.found.Rule.ID, a.Details())
	}
	if !a.PressOffer("beyond-unknown", reckon) || a.job.Waste.Beyond == nil {
		t.Fatal("nothing is reckoned with")
	}
	a.show(t)
	if !a.PressOffer("beyond-assumed", "It is so: a gully 150 from the wall") {
		t.Fatalf("offered %q", a.Offered("beyond-assumed"))
	}
	if a.show(t); a.has("beyond-assumed") || len(a.Answer().Assumed) > 0 {
		t.Error("it is not confirmed")
	}
}

// What can be done about what is to be settled comes after the answer: until it does, its card says so.
func TestCardsSayThatWhatCanBeDoneIsBeingWorkedOut(t *testing.T) {
	a := columnOf(t, demotest.Shown(t)[5].Stated) // which cannot be built as drawn
	const looking = "What can be done is being worked out."
	if told := strings.Join(a.Says(), "\n"); strings.Contains(told, looking) {
		t.Fatalf("worked out, it says that it is not:\n%s", told)
	}
	a.job.Former.Slope += 0.001
	r := geometry.Evaluate(a.job, demotest.Packs(t)[a.job.Region])
	a.Show(r)
	settle := 0
	for _, c := range a.Answer().Cards {
		if c.Severity() != rule.Note {
			settle++
		}
	}
	if told := strings.Join(a.Says(), "\n"); settle == 0 || strings.Count(told, looking) != settle {
		t.Errorf("%d to settle:\n%s", settle, told)
	}
}

// A card is headed by what it is about, whichever of its places is shown: pressed again and again it tells beside that
// which place it shows, and by which rule where that is another.
func TestACardKeepsWhatItIsAbout(t *testing.T) {
	several, rules := 0, 0
	for _, room := range demotest.Rooms(t) {
		a := columnOf(t, room.Job)
		for _, c := range a.Answer().Cards {
			id, n := c.Worst().Rule.ID, len(c.Places)
			heading := theme.Say(c.Worst().Rule.Heading(), room.Job.Units)
			for i := range n + 1 {
				a.Press(id)
				place := c.Places[i%n]
				if a.found.Key() != place.Key() {
					t.Fatalf("%s, %s: pressed %d times it goes to %s, want %s", room.Job.Name, id, i+1, a.found.Key(), place.Key())
				}
				told := a.Says()
				at := slices.Index(told, heading)
				if at < 0 {
					t.Fatalf("%s, %s: pressed %d times it is not headed %q any more:\n%s",
						room.Job.Name, id, i+1, heading, strings.Join(told, "\n"))
				}
				line := told[at+1]
				if n > 1 && !strings.HasSuffix(line, fmt.Sprintf("(%d of %d places)", i%n+1, n)) {
					t.Errorf("%s, %s: pressed %d times it says %q", room.Job.Name, id, i+1, line)
				}
				if other := theme.Say(place.Rule.Heading(), room.Job.Units); strings.Contains(line, other+": ") != (other != heading) {
					t.Errorf("%s, %s: its place %d breaks %q, told is %q", room.Job.Name, id, i+1, other, line)
				} else if other != heading {
					rules++
				}
			}
			if n > 1 {
				several++
			}
		}
	}
	if several < 5 || rules < 3 {
		t.Errorf("%d cards of several places, %d places of another rule", several, rules)
	}
}

// An open card is of its job: another job that is opened begins with every card closed, the same job goes on as it is.
func TestAnotherJobBeginsWithClosedCards(t *testing.T) {
	j := demotest.Rooms(t)[2].Job.Clone()
	demotest.AcrossJoists(&j, 150)
	a := columnOf(t, j)
	a.Of(1)
	a.show(t)
	if !a.Press("trap-joist") || a.Details() == "" {
		t.Fatal("no card opens")
	}
	a.Of(1)
	a.show(t)
	if a.Details() == "" {
		t.Error("the card of the job that is open still is closed")
	}
	a.Of(2)
	a.show(t)
	if got := a.Details(); got != "" {
		t.Errorf("a card of the job before is open: %q", got)
	}
}

// A card that says a joist is in the way has a button that cuts it out between trimmers, and
// says what that asks for; made, the finding is gone. On a joist at the wall it says why not.
func TestACardCutsTheJoistOut(t *testing.T) {
	const does = "Cut the joist out between trimmers"
	last := demotest.Rooms(t)[2].Job.Clone()
	last.Floor.Joists.FirstOffsetMM = 100
	a := columnOf(t, last)
	if a.Press("trap-joist"); slices.Contains(a.Offered("trap-joist"), does) ||
		!strings.Contains(a.Details(), "no joist on its other side carries the trimmers") {
		t.Errorf("at the wall: %q, %s", a.Offered("trap-joist"), a.Details())
	}
	across := demotest.Rooms(t)[2].Job.Clone()
	demotest.AcrossJoists(&across, 150)
	a = columnOf(t, across)

	if a.Press("trap-joist"); !slices.Contains(a.Offered("trap-joist"), does) || !strings.Contains(a.Details(), "structural engineer") {
		t.Fatalf("offered %q, or without its caution: %s", a.Offered("trap-joist"), a.Details())
	}
	a.PressOffer("trap-joist", does)
	if a.show(t); len(a.job.Floor.Joists.Trims) != 1 || a.has("trap-joist") {
		t.Error("the joist is not cut out")
	}
}

// The card of a pipe that lies bare in the room boxes it in, and says what that asks for.
func TestACardBoxesThePipeIn(t *testing.T) {
	j := job.New()
	j.Drain.OutletTurnDeg, j.Waste.Exit = 0, job.Exit{Kind: job.ExitPipe, At: plan.Point{2300, 1832}}
	a := columnOf(t, j)
	a.Press("pipe-exposed")
	if !strings.Contains(a.Details(), "Agree the box with the customer") || !a.PressOffer("pipe-exposed", "Box the pipe in") {
		t.Fatalf("offered %q: %s", a.Offered("pipe-exposed"), a.Details())
	}
	if a.show(t); a.has("pipe-exposed") || !a.has("pipe-boxed") {
		t.Error("it is not boxed in")
	}
}

// The card of a pipe that is too flat and too small puts all of its places right at one press, and says
// of what that is made.
func TestACardPutsAllPlacesRight(t *testing.T) {
	j := job.New()
	j.Waste.NominalMM, j.Waste.OutsideDiameterMM, j.Waste.BoreMM, j.Waste.Gradient = 40, 40, 36, 0.005
	j.Water.ShowerFlowsLPS = []float64{0.7}
	a := columnOf(t, j)
	falls := slices.IndexFunc(a.Answer().Cards, func(c geometry.Card) bool { return c.Cause() == "pipe.gradient" })
	id := a.Answer().Cards[falls].Worst().Rule.ID
	a.Press(id)
	if !strings.Contains(a.Details(), "– Take the next larger pipe") || !a.PressOffer(id, "Put all 4 places right") {
		t.Fatalf("offered %q: %s", a.Offered(id), a.Details())
	}
	if a.show(t); a.has(id) {
		t.Error("not all are put right")
	}
}

// What was worked out for a job is kept while it stays the same, and dropped with it.
func TestOffersAreOfTheirJob(t *testing.T) {
	a := columnOf(t, roomtest.First(t))
	if len(a.Offered("core-slab")) == 0 {
		t.Fatal("nothing is offered")
	}
	if a.Restyle(); len(a.Offered("core-slab")) == 0 {
		t.Error("the same job once more offers nothing")
	}
	other := a.Result()
	other.Stated.Notes = "another"
	if a.Show(other); len(a.Offered("core-slab")) > 0 {
		t.Errorf("another job offers %q", a.Offered("core-slab"))
	}
}

// The standing cautions are one press away, by the stage of work in which they bite.
func TestCautionsOfTheWork(t *testing.T) {
	a := columnOf(t, roomtest.First(t))
	if len(a.Cautions()) > 0 {
		t.Error("they show before they are asked for")
	}
	a.PressCautions()
	text := strings.Join(a.Cautions(), "\n")
	for _, of := range []string{"Before anything is cut or drilled", "Electrical zones", "Silica dust", "When it is handed over", "Scalding"} {
		if !strings.Contains(text, of) {
			t.Errorf("%q is not said in\n%s", of, text)
		}
	}
}

// Once counted, the chances are listed under the cards; another look changes nothing of that.
func TestChancesAreListed(t *testing.T) {
	a := columnOf(t, roomtest.First(t))
	counted, err := chance.Count(context.Background(), a.Result().Levelled, a.Result().Findings, 2000, chance.Seed)
	if err != nil {
		t.Fatal(err)
	}
	a.ShowRisks(counted)
	a.Restyle()
	if len(a.Answer().Later) == 0 || !a.Answer().Counted {
		t.Fatal("nothing is listed that may go wrong")
	}
	said := strings.Join(a.Says(), "\n")
	for _, c := range a.Answer().Later {
		if risk := c.Worst().Risk; risk == nil || risk.Planned || !strings.Contains(said, "in 100") {
			t.Errorf("%+v is listed", risk)
		}
	}
}

// What the job comes to by what is not known stands with the look, possibilities that come to the same in
// one line each, and what knowing it is worth.
func TestTheLookSaysWhatTheJobComesTo(t *testing.T) {
	j := job.New()
	j.SetStanding("floor.kind", job.NotKnown)
	a := columnOf(t, j)
	x, err := unknown.Explore(context.Background(), a.Result())
	if err != nil {
		t.Fatal(err)
	}
	a.ShowPossible(&x)
	said := strings.Join(a.Says(), "\n")
	built := strings.Count(said, "can be built") + strings.Count(said, "can't be built") + strings.Count(said, "can't be told yet")
	if n := len(x.Outcomes()); n < 2 || n >= len(x.Cases) || built != n {
		t.Errorf("%d outcomes of %d cases, %d told in\n%s", n, len(x.Cases), built, said)
	}
	if a.Plate().PressHeadline(); a.found.Rule.ID != "" {
		t.Errorf("“%s” leads to the card of %q", a.Plate().Headline(), a.found.Rule.ID)
	}
	if !strings.Contains(said, "Depending on this, ") {
		t.Errorf("its worth is not told in\n%s", said)
	}
}

// What the headline says stands first: of a job that is stopped, whatever it is that is not known, what stops
// it stands over what is worth looking at; of one that depends on what is not known, the look stands over all
// cards. Then follow what is not known, what is for a qualified person, what is advised and what is to be noted,
// each under a heading of its own.
func TestTheLookStandsWhereTheHeadlineHasIt(t *testing.T) {
	stopped := demotest.Shown(t)[5].Stated.Clone()
	stopped.SetStanding("floor.kind", job.NotKnown)
	open := job.New()
	open.SetStanding("floor.kind", job.NotKnown)
	for _, c := range []struct {
		j    job.Job
		want geometry.Standing
	}{{stopped, geometry.Stops}, {open, geometry.NotKnown}} {
		a := columnOf(t, c.j)
		x, err := unknown.Explore(context.Background(), a.Result())
		if err != nil {
			t.Fatal(err)
		}
		a.ShowPossible(&x)
		said := a.Says()
		look := slices.IndexFunc(said, func(s string) bool { return strings.HasPrefix(s, "Worth looking at first") })
		last := 0
		for i, of := range a.Answer().Of(rule.Stop) {
			at := slices.Index(said, theme.Say(of.Worst().Rule.Heading(), unit.Metric))
			if c.want == geometry.Stops && (at < 0 || at > look) || at < last {
				t.Errorf("%s: card %d that stops it is at %d, the look at %d", c.j.Name, i, at, look)
			}
			last = at
		}
		if a.Plate().Standing() != c.want || look < 0 || c.want == geometry.NotKnown && look != 2 {
			t.Errorf("%s: it %s, the look stands at %d of\n%s", c.j.Name, a.Plate().Standing(), look, strings.Join(said, "\n"))
		}
	}
	said := columnOf(t, roomtest.First(t)).Says()
	order := []string{"For a specialist: 1", "Zone for electrics reaches out of the shower", "Advice: 1",
		"Core hole reaches into the slab", "To note: 2"}
	at := -1
	for _, s := range order {
		if k := slices.Index(said, s); k <= at {
			t.Errorf("“%s” stands at %d in\n%s", s, k, strings.Join(said, "\n"))
		} else {
			at = k
		}
	}
}

// The cards stand right under what is over them, also once that needs less room than before: the headline of
// a sound job is long while its chances are being counted.
func TestTheCardsStandRightUnderThePlate(t *testing.T) {
	a := columnOf(t, demotest.Shown(t)[8].Stated)
	whole := a.Object(nil, container.NewVBox())
	inEnglish(t, whole, fyne.NewSize(300, 600))
	head := whole.(*fyne.Container).Objects[0]
	long := head.Size().Height
	a.ShowRisks(chance.Chances{Fits: 1})
	if got, need := head.Size().Height, head.MinSize().Height; need >= long || got != need {
		t.Errorf("what is over the cards is %v high, needs %v, needed %v before", got, need, long)
	}
}

// In the narrowest column all of every demo stands within its width.
func TestTheColumnIsNarrow(t *testing.T) {
	for i, r := range demotest.Shown(t) {
		a := columnOf(t, r.Stated)
		inEnglish(t, a.Object(nil, container.NewVBox()), fyne.NewSize(300, 600))
		if cards := a.Answer().Cards; len(cards) > 0 {
			a.Press(cards[0].Worst().Rule.ID)
		}
		if need := a.Object(nil, container.NewVBox()).MinSize().Width; need > 300 {
			t.Errorf("demo %d: %s needs %v", i+1, r.Settled.Name, need)
		}
	}
}

// What is pressed first is never what leaves the job worse: of the third demo, whose one offer does, no
// button is filled; of the first, whose one offer does not, it is.
func TestWhatLeavesTheJobWorseIsNotTheFirstThingToPress(t *testing.T) {
	for demo, want := range map[int]bool{0: true, 2: false} {
		j := demotest.Shown(t)[demo].Stated
		a := columnOf(t, j)
		offered, filled := 0, 0
		for _, o := range test.LaidOutObjects(a.Object(nil, container.NewWithoutLayout())) {
			if b, is := o.(*control.Press); is && b.Small && !b.Bare {
				if offered++; b.Filled {
					filled++
				}
			}
		}
		if offered == 0 || filled > 1 || (filled == 1) != want {
			t.Errorf("%s: %d of %d buttons are filled, want one: %v", j.Name, filled, offered, want)
		}
	}
}

// Where a hole lies too near the end of its joist, or another joist is cut too deep, and no number of the job mends that, its card
// leads to where other runs are looked for; no card of the floor alone does.
func TestACardWithoutARemedyLeadsToOtherRuns(t *testing.T) {
	led := 0
	for _, room := range demotest.Rooms(t) {
		a := columnOf(t, room.Job)
		for _, c := range a.Answer().Cards {
			id := c.Worst().Rule.ID
			all, _ := fit.Offers(a.Result(), c, 0)
			leads := slices.Contains(a.Offered(id), "Find runs")
			joist := strings.HasPrefix(c.Places[0].Rule.Quantity, "joist.hole") || strings.HasPrefix(c.Places[0].Rule.Quantity, "joist.notch")
			switch {
			case leads && (len(all) > 0 || geometry.StationOf(c.Places[0].Finding) != job.StationWayOut):
				t.Errorf("%s, %s: leads to other runs", room.Job.Name, id)
			case joist && len(all) == 0 && !leads:
				t.Errorf("%s, %s: leads nowhere", room.Job.Name, id)
			}
			if !leads {
				continue
			}
			led++
			if a.list = ""; !a.PressOffer(id, "Find runs") || a.list != "runs that are looked for" {
				t.Errorf("%s, %s: opens %q", room.Job.Name, id, a.list)
			}
		}
	}
	if led == 0 {
		t.Error("no card leads to other runs")
	}
}
