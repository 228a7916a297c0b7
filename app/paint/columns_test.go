package paint

import "testing"

// Lines of 100 wide at any size, at a pitch of 11·0.82·1.45 = 13.08 or, in the smaller text,
// 11·0.7·1.45 = 11.165, with 14 between columns: twenty are 261.6 high in one column, 130.8 in two,
// which are 214 wide; 223.3 and 111.7 in the smaller. Of those, 8 are no higher than 100.
func TestColumnsFindRoom(t *testing.T) {
	width := func(int, float64) float64 { return 100 }
	for name, c := range map[string]struct {
		lines      int
		wide, high float64
		rows, of   int
		shown      int
		small      bool
	}{
		"one column":         {20, 110, 262, 20, 1, 20, false},
		"two columns":        {20, 214, 131, 10, 2, 20, false},
		"an odd line more":   {21, 214, 144, 11, 2, 21, false},
		"smaller":            {20, 110, 224, 20, 1, 20, true},
		"smaller, in two":    {20, 214, 112, 10, 2, 20, true},
		"not all":            {20, 110, 100, 8, 1, 8, true},
		"no room for a line": {20, 110, 5, 0, 0, 0, true},
		"none wide enough":   {20, 90, 500, 20, 0, 0, true},
		"nothing to write":   {0, 90, 500, 0, 0, 0, false},
	} {
		got := columnsOf(c.lines, width, c.wide, c.high, 1)
		if got.shown != c.shown || len(got.wide) != c.of || got.shown > 0 && (got.rows != c.rows || (got.size < textSize*nameSmall) != c.small) {
			t.Errorf("%s: %+v", name, got)
		}
	}
}
