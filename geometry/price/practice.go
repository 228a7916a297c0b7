package price

import "strings"

// Practice is what sums are written in in a country, and what is added to them there, until a user states their own.
type Practice struct {
	Currency string
	// Tax is the one national rate, from 0 to 1; 0 where there is not one for all work, so that it is the user's to set.
	Tax float64
}

// PracticeIn is that of a region, or of the one that it lies in: in Ireland work on buildings has other rates than what is sold, in the
// United States rates are those of states and towns. Rates of 2026, from memory.
func PracticeIn(region string) Practice {
	return map[string]Practice{
		"UK": {"GBP", 0.20},
		"IE": {"EUR", 0},
		"DE": {"EUR", 0.19},
		"AU": {"AUD", 0.10},
		"NZ": {"NZD", 0.15},
		"US": {"USD", 0},
	}[Country(region)]
}

// Country is the country of a region.
func Country(region string) string {
	country, _, _ := strings.Cut(region, "-")
	return country
}

// In is the list with a currency where it has none of its own, that of a region, and its tax while nothing stands in the list: one that
// somebody made without a tax has none. What is priced in another currency has another country's tax or none, which is not known.
func (l List) In(region string) List {
	p := PracticeIn(region)
	if l.Currency == "" {
		l.Currency = p.Currency
	}
	if l.Tax == 0 && len(l.Rows) == 0 && l.Currency == p.Currency {
		l.Tax = p.Tax
	}
	return l
}
