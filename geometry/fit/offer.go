package fit

import (
	"slices"

	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// mostOffers is how many things to do about a card are offered at most.
const mostOffers = 3

// Offer is a change that ends one of the places of a card, or all of them.
type Offer struct {
	// For is the finding that it ends; of all places the gravest.
	For rule.Finding
	All bool
	Remedy
}

// Offers are what can be done about a card of which a place is shown, best first: what ends all of its
// places, unless it leaves the job worse, then what ends the one that is shown, then what ends others by other changes. Why says what
// hinders that of the place that is shown, where that can be said and nothing is offered for it.
func Offers(before geometry.Result, c geometry.Card, at int) (all []Offer, why message.Message) {
	take := func(o Offer) {
		again := slices.ContainsFunc(all, func(p Offer) bool { return p.Does.String() == o.Does.String() })
		if !again && len(all) < mostOffers {
			all = append(all, o)
		}
	}
	if r, ok := RemedyOfCard(before, c); ok && !r.Worse {
		take(Offer{c.Worst().Finding, true, r})
	}
	shown := c.Places[at%len(c.Places)].Finding
	rs, why := RemediesOf(before, shown, mostOffers)
	for _, r := range rs {
		take(Offer{shown, false, r})
	}
	for _, p := range c.Places {
		if len(all) > 0 {
			break
		}
		if r, _, ok := RemedyOf(before, p.Finding); ok {
			take(Offer{p.Finding, false, r})
		}
	}
	return all, why
}

// Price says what the offer asks for and what it leaves.
func (o Offer) Price(before geometry.Result) []message.Message { return o.Remedy.Price(before, o.For) }

// Changes are all that the offer changes besides.
func (o Offer) Changes(before geometry.Result) []message.Message {
	return o.Remedy.Changes(before, o.For)
}
