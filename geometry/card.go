package geometry

import (
	"cmp"
	"slices"

	"underfall/geometry/chance"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// Place is one place where something is wrong, or may come to be.
type Place struct {
	rule.Finding
	// Risk is its chance once built, of what is not wrong as planned; nil for what is.
	Risk *chance.Risk
}

// Probability is how often it is so once built, from 0 to 1, as far as it is known: what
// is wrong as planned counts as certain.
func (p Place) Probability() float64 {
	if p.Risk == nil {
		return 1
	}
	return p.Risk.Probability
}

// Card is one cause with all the places where it tells; the gravest first, of which there
// is at least one.
type Card struct{ Places []Place }

// Worst is the place that the card is about before all others.
func (c Card) Worst() Place { return c.Places[0] }

// Severity is that of the worst place.
func (c Card) Severity() rule.Severity { return c.Worst().Rule.Severity }

// Cause names the card among those of its job, from one evaluation to the next.
func (c Card) Cause() string { return rule.CauseOf(c.Worst().Rule.Quantity) }

// likely tells whether what may come to be is advised against and will rather be so than not.
func (c Card) likely() bool {
	return c.Severity() != rule.Note && c.Worst().Probability() > evenChance
}

// Open are the inputs of a job that nobody has stated and that the place hangs on, as they are called.
func (p Place) Open(j *job.Job) (out []message.Message) {
	for _, key := range p.Measurement.RestsOn() {
		if j.StandingOf(key).Open() {
			out = append(out, j.PlaceOf(key))
		}
	}
	return out
}

// evenChance is that of what is so as often as not.
const evenChance = 0.5

// rank orders places by consequence, then by chance, then by how far they are beyond what
// is allowed.
func rank(a, b Place) int {
	return cmp.Or(cmp.Compare(a.Rule.Severity.Rank(), b.Rule.Severity.Rank()),
		-cmp.Compare(a.Probability(), b.Probability()), -cmp.Compare(a.Beyond(), b.Beyond()))
}

// cards puts places of one cause together and ranks them, the gravest card first. Of several limits that
// one measurement breaks the gravest tells.
func cards(places []Place) []Card {
	slices.SortStableFunc(places, rank)
	told := map[string]bool{}
	at := map[string]int{}
	var out []Card
	for _, p := range places {
		m := p.Measurement.ID()
		if told[m] {
			continue
		}
		told[m] = true
		cause := rule.CauseOf(p.Rule.Quantity)
		k, ok := at[cause]
		if !ok {
			k = len(out)
			at[cause] = k
			out = append(out, Card{})
		}
		out[k].Places = append(out[k].Places, p)
	}
	return out
}

// Cards are those of what is wrong as planned, the gravest first.
func (r Result) Cards() []Card {
	places := make([]Place, len(r.Findings))
	for i, f := range r.Findings {
		places[i] = Place{Finding: f}
	}
	return cards(places)
}

// laterCards are the cards of what is right as planned and may go wrong in the building.
func laterCards(risks []chance.Risk) []Card {
	var places []Place
	for i := range risks {
		if r := &risks[i]; !r.Planned {
			places = append(places, Place{rule.Finding{Rule: r.Rule, Measurement: r.Measurement}, r})
		}
	}
	return cards(places)
}
