package price_test

import (
	"testing"

	"underfall/geometry/price"
)

// Currencies by ISO 4217; rates from memory. Where there is no one national rate none is added, and a list in another currency, or with
// a tax of its own, keeps to that.
func TestPracticeOfCountries(t *testing.T) {
	for region, want := range map[string]price.List{
		"UK": {Currency: "GBP", Tax: 0.2}, "UK-SC": {Currency: "GBP", Tax: 0.2}, "US": {Currency: "USD"}, "US-UPC": {Currency: "USD"},
		"DE": {Currency: "EUR", Tax: 0.19}, "IE": {Currency: "EUR"}, "AU-SA": {Currency: "AUD", Tax: 0.1},
		"NZ": {Currency: "NZD", Tax: 0.15}, "": {},
	} {
		if got := (price.List{}).In(region); got.Currency != want.Currency || got.Tax != want.Tax {
			t.Errorf("%s: %+v", region, got)
		}
	}
	if got := (price.List{Currency: "USD"}).In("UK"); got.Currency != "USD" || got.Tax != 0 {
		t.Errorf("in dollars: %+v", got)
	}
	if got := (price.List{Rows: []price.Row{{Key: "tile"}}}).In("UK"); got.Currency != "GBP" || got.Tax != 0 {
		t.Errorf("a list without a tax: %+v", got)
	}
	if got := (price.List{Tax: 0.05}).In("UK"); got.Currency != "GBP" || got.Tax != 0.05 {
		t.Errorf("with a tax of its own: %+v", got)
	}
}
