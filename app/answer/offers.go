package answer

import (
	"context"
	"fmt"

	"underfall/geometry"
	"underfall/geometry/fit"
	"underfall/geometry/message"
)

// Offers are what can be done about a card: fit.Offers of it.
type Offers struct {
	All []fit.Offer
	Why message.Message
}

// offerKey is a card by its cause, and which of its places is shown.
type offerKey struct {
	cause string
	at    int
}

// OffersOf works out what can be done about each card of a result, with its first place shown, by the
// card's cause. The error is that of a context that is cancelled meanwhile.
func OffersOf(ctx context.Context, r geometry.Result) (map[string]Offers, error) {
	out := map[string]Offers{}
	for _, of := range r.Answer(nil).Cards {
		if err := ctx.Err(); err != nil {
			return nil, fmt.Errorf("trying what can be done: %w", err)
		}
		all, why := fit.Offers(r, of, 0)
		out[of.Cause()] = Offers{all, why}
	}
	return out, nil
}

// ShowOffers takes what can be done about the cards of the result that is shown, by their causes.
func (c *Column) ShowOffers(all map[string]Offers) {
	for cause, o := range all {
		c.offers[offerKey{cause, 0}] = o
	}
	for _, k := range c.cards {
		k.fill()
	}
	c.arranged()
}

// offersOf is what can be done about a card with one of its places shown; worked out where that is not
// known, which takes a while.
func (c *Column) offersOf(k *card) Offers {
	o, known := c.offers[k.key()]
	if !known {
		o.All, o.Why = fit.Offers(c.result, k.of, k.at)
		c.offers[k.key()] = o
	}
	return o
}
