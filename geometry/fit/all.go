package fit

import (
	"slices"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// mostChanges is how many changes one remedy of a card with several places makes at most: each
// works the floor out again several times.
const mostChanges = 6

// RemedyOfCard are the changes, as one, that all places of a card go away by, where the first
// of them by itself leaves some; ok is false where any place has none, or the card has but one.
//
// Method: the gravest place first, then the gravest of what is left on the floor as it is by
// then, as long as each leaves fewer places. What proves needless by then is left out.
func RemedyOfCard(before geometry.Result, c geometry.Card) (r Remedy, ok bool) {
	if len(c.Places) < 2 {
		return Remedy{}, false
	}
	var made []Remedy
	for left, now := c, before; len(left.Places) > 0; {
		one, found := firstRemedy(now, left)
		if !found || len(made) == mostChanges {
			return Remedy{}, false
		}
		now, made = one.After, append(made, one)
		was := len(left.Places)
		if left = cardOf(now, c.Cause()); len(left.Places) >= was {
			return Remedy{}, false
		}
	}
	if len(made) < 2 {
		return Remedy{}, false
	}
	for i := 0; i < len(made); {
		without := slices.Delete(slices.Clone(made), i, i+1)
		if _, enough := together(before, c, without); len(without) > 0 && enough {
			made = without
			continue
		}
		i++
	}
	return together(before, c, made)
}

// together are several changes as one; ok tells that no place of the card is left, and nothing
// new stops the job.
func together(before geometry.Result, c geometry.Card, made []Remedy) (r Remedy, ok bool) {
	r = Remedy{Does: message.Of("remedy.all", message.N("n", len(c.Places)))}
	for _, one := range made {
		r.Steps, r.Joists, r.LetsGo = append(r.Steps, one.Does), r.Joists+one.Joists, append(r.LetsGo, one.LetsGo...)
	}
	r.Edit = edit.Of(message.Of("edit.all-places"), func(j *job.Job) {
		for _, one := range made {
			*j = one.Edit.Apply(*j)
		}
	})
	r.After = geometry.EvaluateAfter(before, r.Edit.Apply(before.Stated), before.Pack)
	if len(r.After.Problems) > 0 {
		return r, false
	}
	r.Chance = r.After.Answer(nil).Chance
	for _, one := range made {
		// A later change may leave something that stops what one has mended.
		if one.Chance > 0 {
			r.Chance = min(r.Chance, one.Chance)
		}
	}
	r.New, r.Gone = less(r.After.Findings, before.Findings), less(before.Findings, r.After.Findings)
	r.Worse = worse(before, r.After)
	return r, len(cardOf(r.After, c.Cause()).Places) == 0 && !slices.ContainsFunc(r.New, stops)
}

// firstRemedy is what the first of a card's places that has a remedy goes away by: at whatever height, as what makes the floor
// higher at one place may end the others with it.
func firstRemedy(r geometry.Result, c geometry.Card) (Remedy, bool) {
	for _, p := range c.Places {
		x := tryout{before: r, f: p.Finding, most: 1, atAnyHeight: true}
		if all, _ := x.ending(); len(all) > 0 {
			return all[0], true
		}
	}
	return Remedy{}, false
}

// cardOf is the card of a cause; without places where nothing is wrong of it.
func cardOf(r geometry.Result, cause string) geometry.Card {
	for _, c := range r.Answer(nil).Cards {
		if c.Cause() == cause {
			return c
		}
	}
	return geometry.Card{}
}
