package unit

import (
	"math"
	"slices"
	"strings"

	"underfall/geometry/message"
)

// Column is what one number of a list is: its kind and the values that
// make sense, in the unit of the kind.
type Column struct {
	Kind            Kind
	Least, Greatest float64
}

// Any is a column for whatever makes sense as the kind.
func Any(kind Kind) Column { return Column{kind, math.Inf(-1), math.Inf(1)} }

// mostInList is how many numbers a list without a count may have.
const mostInList = 100

// mostCommas is how many commas without a space are tried each for itself.
const mostCommas = 6

// ParseList reads any count of numbers; an empty text gives none. Semicolons,
// tabs, line ends, and commas with a space behind them separate. A comma
// between two digits may separate too, or belong to one number; if both make
// sense the error is an *Ambiguous.
func ParseList(text string, kind Kind, s System) ([]float64, error) {
	columns := make([]Column, mostInList)
	for i := range columns {
		columns[i] = Any(kind)
	}
	return ParseColumns(text, columns, 0, s)
}

// ParseColumns reads numbers as ParseList does, one for each column; those
// past the first least may be left out. An empty text gives no numbers.
func ParseColumns(text string, columns []Column, least int, s System) ([]float64, error) {
	parts, err := partsOf(text)
	if err != nil || len(parts) == 0 {
		return nil, err
	}
	l := list{columns, least, s, map[item][]Reading{}}
	var found [][]Reading
	var first error
	for _, likely := range splitsOf(parts, strings.ContainsAny(text, ";\t")) {
		for _, items := range likely {
			lists, err := l.read(items)
			if err != nil && first == nil {
				first = err
			}
			for _, one := range lists {
				found = addList(found, one)
			}
		}
		if len(found) > 0 {
			break
		}
	}
	switch len(found) {
	case 0:
		return nil, first
	case 1:
		out := make([]float64, len(found[0]))
		for i, r := range found[0] {
			out[i] = r.Value
		}
		return out, nil
	}
	a := &Ambiguous{Typed: strings.TrimSpace(text)}
	for _, one := range found {
		texts := make([]string, len(one))
		for i, r := range one {
			texts[i] = r.Text
		}
		a.Readings = append(a.Readings, Reading{one[0].Value, strings.Join(texts, "; ")})
	}
	return nil, a
}

// tightComma tells whether a comma without spaces stands between two digits.
func tightComma(runes []rune, i int) bool {
	return runes[i] == ',' && i > 0 && i+1 < len(runes) && digit(runes[i-1]) && digit(runes[i+1])
}

// partsOf takes text apart where that is beyond doubt. A separator may stand
// at the end, but no number may be missing before another.
func partsOf(text string) ([]string, error) {
	var parts []string
	runes := []rune(text)
	start, marks := 0, 0 // marks counts the semicolons and commas since the last part
	for i := 0; i <= len(runes); i++ {
		mark := i < len(runes) && (runes[i] == ';' || runes[i] == ',' && !tightComma(runes, i))
		if i < len(runes) && !mark && !strings.ContainsRune("\t\n\r", runes[i]) {
			continue
		}
		if part := strings.TrimSpace(string(runes[start:i])); part != "" {
			if marks > 1 || marks == 1 && len(parts) == 0 {
				return nil, message.Fail("reading.missing-before", message.Name("typed", shorten(part)))
			}
			parts = append(parts, part)
			marks = 0
		}
		if mark {
			marks++
		}
		start = i + 1
	}
	return parts, nil
}

// splitsOf are the ways to take parts apart further at commas between digits,
// the likelier ones in front of the others: all of them separate or none;
// none, where something else separates already and the commas look like marks
// within a number: no more than two digits follow, or three where semicolons
// or tabs separate.
func splitsOf(parts []string, semicolons bool) [][][]string {
	commas, asMarks, most := 0, len(parts) > 1, 2
	if semicolons {
		most = 3
	}
	for _, p := range parts {
		runes := []rune(p)
		for i := range runes {
			if tightComma(runes, i) {
				commas++
				behind := i + 1
				for behind < len(runes) && digit(runes[behind]) {
					behind++
				}
				asMarks = asMarks && behind-i-1 <= most
			}
		}
	}
	if commas == 0 {
		return [][][]string{{parts}}
	}
	all, none := splitAt(parts, func(int) bool { return true }), parts
	likely := [][][]string{{all, none}}
	if asMarks {
		likely = [][][]string{{none}, {all}}
	}
	if commas > mostCommas {
		return likely
	}
	var some [][]string
	for set := 1; set < 1<<commas-1; set++ {
		some = append(some, splitAt(parts, func(comma int) bool { return set>>comma&1 == 1 }))
	}
	return append(likely, some)
}

// splitAt takes parts apart at those commas between digits that separate.
func splitAt(parts []string, separates func(comma int) bool) []string {
	var out []string
	comma := 0
	for _, p := range parts {
		runes := []rune(p)
		start := 0
		for i := range runes {
			if !tightComma(runes, i) {
				continue
			}
			if separates(comma) {
				out = append(out, string(runes[start:i]))
				start = i + 1
			}
			comma++
		}
		out = append(out, string(runes[start:]))
	}
	return out
}

// list is what the items of a list must be.
type list struct {
	columns []Column
	least   int
	s       System
	// known are the readings found before: most items come again in every
	// way to take the text apart.
	known map[item][]Reading
}

// item is one number of a list as typed, in its column, with the decimal mark
// it is read with, which can be eitherMark.
type item struct {
	text    string
	column  Column
	decimal byte
}

// readings are the meanings of an item that make sense in its column.
func (l list) readings(it item) []Reading {
	sound, known := l.known[it]
	if !known {
		if tokens, f := scan(it.text); f == nil {
			c := it.column
			all, _ := readingsWith(tokens, c.Kind, l.s, it.decimal)
			if it.decimal == eitherMark {
				all, _ = readingsOf(tokens, c.Kind, l.s)
			}
			sound = within(all, c.Kind, l.s, c.Least, c.Greatest)
		}
		l.known[it] = sound
	}
	return sound
}

// read gives every meaning of the items, or what is wrong with them.
func (l list) read(items []string) ([][]Reading, error) {
	if n, most := len(items), len(l.columns); n < l.least || n > most {
		is := message.No("is", n)
		switch {
		case l.least == most:
			return nil, message.Fail("reading.needs", message.N("needs", most), is)
		case n > most:
			return nil, message.Fail("reading.needs-at-most", message.N("most", most), is)
		}
		return nil, message.Fail("reading.needs-between", message.No("least", l.least), message.No("most", most), is)
	}
	var found [][]Reading
	for _, decimal := range []byte{'.', ','} {
		lists := [][]Reading{nil}
		for i, text := range items {
			lists = extend(lists, l.readings(item{text, l.columns[i], decimal}))
		}
		for _, one := range lists {
			found = addList(found, one)
		}
	}
	if len(found) > 0 {
		return found, nil
	}
	// Points here and commas there: each number by itself.
	found = [][]Reading{nil}
	for i, text := range items {
		c := l.columns[i]
		sound := l.readings(item{text, c, eitherMark})
		if len(sound) == 0 {
			all, err := readAll(text, c.Kind, l.s)
			if err == nil {
				err = outside(all, c.Kind, l.s, c.Least, c.Greatest)
			}
			if len(items) > 1 {
				err = message.Wrap(err, "reading.in-list", message.No("n", i+1), message.Name("typed", shorten(text)))
			}
			return nil, err
		}
		found = extend(found, sound)
	}
	return found, nil
}

// mostReadings is how many meanings of a list are told.
const mostReadings = 8

// extend puts each of the next number's readings behind each list.
func extend(lists [][]Reading, next []Reading) [][]Reading {
	if len(next) == 1 {
		for i := range lists {
			lists[i] = append(lists[i], next[0])
		}
		return lists
	}
	var out [][]Reading
	for _, one := range lists {
		for _, r := range next {
			if len(out) < mostReadings {
				out = append(out, append(slices.Clone(one), r))
			}
		}
	}
	return out
}

// addList adds a list unless the same numbers are there.
func addList(lists [][]Reading, one []Reading) [][]Reading {
	for _, o := range lists {
		known := len(o) == len(one)
		for i := 0; known && i < len(o); i++ {
			known = same(o[i].Value, one[i].Value)
		}
		if known {
			return lists
		}
	}
	return append(lists, one)
}
