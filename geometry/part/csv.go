package part

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"underfall/geometry/message"
)

// kindShelf stands in the column of kinds in the row that tells the version.
const kindShelf, fieldVersion = "shelf", "version"

// head names the columns of a shelf as a table.
func head() []string { return []string{"kind", "id", "field", "value"} }

// MarshalCSV writes a shelf as a table for a spreadsheet that reads back exactly: a row
// for each value, with its place in the part as sizes[1].boreMM. What the JSON leaves
// out, it leaves out.
func MarshalCSV(s Shelf) ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	rows := [][]string{head(), {kindShelf, "", fieldVersion, strconv.Itoa(Version)}}
	for p := range s.Each {
		for _, v := range values(nil, "", reflect.ValueOf(p)) {
			if v.field != "id" {
				rows = append(rows, []string{string(p.Kind()), p.Of().ID, v.field, v.text})
			}
		}
	}
	if err := w.WriteAll(rows); err != nil {
		return nil, fmt.Errorf("writing a shelf of parts as a table: %w", err)
	}
	return out.Bytes(), nil
}

// value is one value of a part as it stands in the table.
type value struct{ field, text string }

// values adds the values of v, which stands at a field, to others.
func values(to []value, at string, v reflect.Value) []value {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			name, left, embedded := jsonField(v.Type().Field(i))
			switch {
			case embedded:
				to = values(to, at, v.Field(i))
			case !left || !v.Field(i).IsZero():
				to = values(to, strings.TrimPrefix(at+"."+name, "."), v.Field(i))
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			to = values(to, fmt.Sprintf("%s[%d]", at, i), v.Index(i))
		}
	case reflect.Float64:
		to = append(to, value{at, strconv.FormatFloat(v.Float(), 'f', -1, 64)})
	case reflect.Bool:
		to = append(to, value{at, strconv.FormatBool(v.Bool())})
	default:
		to = append(to, value{at, v.String()})
	}
	return to
}

// jsonField is a field's name in JSON; left tells that it is left out where it says
// nothing, embedded that its own fields stand in its place.
func jsonField(f reflect.StructField) (name string, left, embedded bool) {
	name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
	return name, strings.HasPrefix(options, "omit"), f.Anonymous
}

// ParseCSV reads a shelf from a table. It refuses what ParseShelf refuses, and says in
// which line: its errors have words for people.
func ParseCSV(data []byte) (Shelf, error) {
	if len(data) > LargestShelf {
		return Shelf{}, TooLarge()
	}
	r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(data, []byte("\ufeff")))) // spreadsheets begin with the mark
	r.FieldsPerRecord = len(head())
	t := table{at: map[key]int{}, lines: map[place]int{}}
	for first := true; ; first = false {
		row, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return Shelf{}, unreadableRow(err)
		}
		line, _ := r.FieldPos(0)
		switch {
		case !first:
			err = t.row(line, row)
		case !slices.Equal(row, head()):
			err = atLine(line, message.Fail("part.csv.head", message.Name("head", strings.Join(head(), ","))))
		}
		if err != nil {
			return Shelf{}, err
		}
	}
	if t.shelf.Version == 0 {
		return Shelf{}, message.Fail("part.no-shelf")
	}
	if at, err := t.shelf.check(); err != nil {
		return Shelf{}, atLine(t.line(at), err)
	}
	return t.shelf, nil
}

// atLine says in which line something is wrong.
func atLine(line int, err error) error {
	return message.Wrap(err, "part.csv.line", message.No("line", line))
}

// unreadableRow gives an error of the table's reader words for the person at the screen.
func unreadableRow(err error) error {
	var wrong *csv.ParseError
	if !errors.As(err, &wrong) {
		return err
	}
	what := message.Of("part.csv.quotes")
	if errors.Is(err, csv.ErrFieldCount) {
		what = message.Of("part.csv.columns", message.No("columns", len(head())))
	}
	return atLine(wrong.Line, &message.Error{What: what, Cause: err})
}

// table is a shelf being read from one.
type table struct {
	shelf Shelf
	at    map[key]int   // where a part is among those of its kind
	lines map[place]int // the line of each value, and of each part's first
}

// line is the line that tells of a place, or that the part begins at.
func (t *table) line(at place) int {
	if line, ok := t.lines[at]; ok {
		return line
	}
	return t.lines[place{key: at.key}]
}

// row takes one row of the table.
func (t *table) row(line int, row []string) error {
	k, field, text := key{Kind(row[0]), row[1]}, row[2], row[3]
	here := place{k, field}
	if field == "" || field == "id" {
		return atLine(line, unknownField(field))
	}
	if t.lines[here] > 0 {
		return atLine(line, message.Fail("part.csv.twice", message.Name("field", field), message.No("before", t.lines[here])))
	}
	t.lines[here] = line
	if k == (key{kindShelf, ""}) {
		return t.version(line, field, text)
	}
	of, ok := t.shelf.list(k.kind)
	if !ok {
		return atLine(line, message.Fail("part.csv.kind", message.Name("kind", string(k.kind))))
	}
	i, begun := t.at[k]
	if !begun {
		i = of.Len()
		t.at[k], t.lines[place{key: k}] = i, line
		of.Set(reflect.Append(of, reflect.Zero(of.Type().Elem())))
		of.Index(i).FieldByName("ID").SetString(k.id)
	}
	if err := set(of.Index(i), field, text); err != nil {
		return atLine(line, err)
	}
	return nil
}

// version takes the row that tells the version.
func (t *table) version(line int, field, text string) error {
	v, err := strconv.Atoi(text)
	switch {
	case field != fieldVersion || err != nil || v < 1:
		return atLine(line, message.Fail("part.no-shelf"))
	case v > Version:
		return ErrNewer
	}
	t.shelf.Version = v
	return nil
}

// list are the shelf's parts of a kind, to be added to; ok is false where there is no
// such kind.
func (s *Shelf) list(k Kind) (of reflect.Value, ok bool) {
	to, ok := map[Kind]any{
		KindPipe: &s.Pipes, KindBoards: &s.Boards, KindFormer: &s.Formers, KindDrain: &s.Drains,
		KindTile: &s.Tiles, KindLayer: &s.Layers, KindTimber: &s.Timber,
	}[k]
	if !ok {
		return reflect.Value{}, false
	}
	return reflect.ValueOf(to).Elem(), true
}

// set puts a value, given as text, at a field under v.
func set(v reflect.Value, field, text string) error {
	for rest := "." + field; rest != ""; {
		switch v.Kind() {
		case reflect.Struct:
			name, dotted := strings.CutPrefix(rest, ".")
			end := strings.IndexAny(name+".", ".[")
			name, rest = name[:end], name[end:]
			under, ok := under(v, name)
			if !dotted || !ok {
				return unknownField(field)
			}
			v = under
		case reflect.Slice:
			number, after, ok := strings.Cut(strings.TrimPrefix(rest, "["), "]")
			i, err := strconv.Atoi(number)
			if !ok || err != nil || rest != "["+strconv.Itoa(i)+"]"+after || i < 0 {
				return unknownField(field)
			}
			if i > v.Len() {
				return message.Fail("part.csv.order", message.Name("field", field))
			}
			if i == v.Len() {
				v.Set(reflect.Append(v, reflect.Zero(v.Type().Elem())))
			}
			v, rest = v.Index(i), after
		default:
			return unknownField(field)
		}
	}
	return take(v, field, text)
}

// under is the field of a struct, or of one embedded in it, by its name in JSON.
func under(v reflect.Value, name string) (found reflect.Value, ok bool) {
	for i := range v.NumField() {
		of, _, embedded := jsonField(v.Type().Field(i))
		if embedded {
			if found, ok := under(v.Field(i), name); ok {
				return found, true
			}
		} else if of == name {
			return v.Field(i), true
		}
	}
	return reflect.Value{}, false
}

// take sets one value from its text.
func take(v reflect.Value, field, text string) error {
	switch v.Kind() {
	case reflect.Float64:
		n, err := strconv.ParseFloat(text, 64)
		if err != nil {
			return message.Fail("part.csv.number", message.Name("field", field), message.Name("value", text))
		}
		v.SetFloat(n)
	case reflect.Bool:
		if text != "true" && text != "false" {
			return message.Fail("part.csv.yes-or-no", message.Name("field", field), message.Name("value", text))
		}
		v.SetBool(text == "true")
	case reflect.String:
		v.SetString(text)
	default:
		return unknownField(field)
	}
	return nil
}

func unknownField(field string) error {
	return message.Fail("part.csv.field", message.Name("field", field))
}
