package rule

import (
	"fmt"
	"slices"
)

// contradiction is an error when two rules that stop a job can hold of the same thing and
// no value keeps both: whatever is built then breaks one.
func contradiction(rules []Rule) error {
	for i := range rules {
		least := &rules[i]
		if least.Severity != Stop || least.Compare != AtLeast {
			continue
		}
		for k := range rules {
			most := &rules[k]
			if most.Severity != Stop || most.Compare != AtMost || most.Quantity != least.Quantity {
				continue
			}
			if least.Limit-least.slack() > most.Limit+most.slack() && together(least.When, most.When) {
				return fmt.Errorf("%s asks for at least %v of %s and %s for at most %v: nothing keeps both",
					least.ID, least.Limit, least.Quantity, most.ID, most.Limit)
			}
		}
	}
	return nil
}

// together tells whether both circumstances can be there at once.
func together(a, b When) bool {
	excludes := func(tags, without []string) bool {
		return slices.ContainsFunc(tags, func(tag string) bool { return slices.Contains(without, tag) })
	}
	if excludes(a.Tags, b.Without) || excludes(b.Tags, a.Without) {
		return false
	}
	for fact, x := range a.Facts {
		if y, both := b.Facts[fact]; both && (x[1] < y[0] || y[1] < x[0]) {
			return false
		}
		if y, both := b.Outside[fact]; both && x[0] >= y[0] && x[1] <= y[1] {
			return false
		}
	}
	for fact, x := range b.Facts {
		if y, both := a.Outside[fact]; both && x[0] >= y[0] && x[1] <= y[1] {
			return false
		}
	}
	return true
}
