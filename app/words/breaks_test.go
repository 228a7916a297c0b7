package words_test

import (
	"slices"
	"testing"

	"underfall/app/words"
)

// A number stays on a line with its fraction, its inches and its unit; other words stand by themselves.
func TestNumbersStayWhole(t *testing.T) {
	for text, want := range map[string][]string{
		"26 % of it, at most 25 %": {"26 %", "of", "it,", "at", "most", "25 %"},
		"4' 7 1/2\" wide":          {"4' 7 1/2\"", "wide"},
		"fall 18 mm/m, 3 doors":    {"fall", "18 mm/m,", "3", "doors"},
		"  m 5  ":                  {"m", "5"},
		"":                         nil,
		"under the former\u00a03":  {"under", "the", "former 3"},
	} {
		if got := words.Apart(text); !slices.Equal(got, want) {
			t.Errorf("%q is parted into %q, want %q", text, got, want)
		}
	}
}
