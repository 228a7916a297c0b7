package main

import (
	"io/fs"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// Everything Underfall says has words, every text is said, and every text is given
// the values it asks for. What to do: write the text into assets/words, or take it
// out.
func TestEverythingHasWords(t *testing.T) {
	shelf, err := words.Load(assets.Words())
	if err != nil || len(shelf.Broken) > 0 {
		t.Fatal(err, shelf.Broken)
	}
	said, err := saidIn("./...")
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range append(compare(said, shelf), repeated(assets.Words())...) {
		t.Error(fault)
	}
}

// An American text tells every value that the British one does.
func TestAmericanTellsAsMuch(t *testing.T) {
	shelf, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range shelf.IDs(words.American) {
		told := shelf.Asks(words.American, id)
		for _, value := range shelf.Asks(words.British, id) {
			if !slices.Contains(told, value) {
				t.Errorf("%s: the text in %s leaves out {{.%s}}", id, words.American, value)
			}
		}
	}
}

// An id that has two texts in a file is told, whatever stands between them; one that has
// a text in every language is not.
func TestRepeated(t *testing.T) {
	faults := repeated(fstest.MapFS{
		"en-GB/all.json": {Data: []byte(`{"a": "A", "b": {"one": "a", "other": "b"}, "c": "C", "a": "A again"}`)},
		"en-US/all.json": {Data: []byte(`{"b": "B", "c": "b"}`)},
	})
	if len(faults) != 1 || faults[0].Error() != "a has two texts in en-GB/all.json" {
		t.Errorf("%v", faults)
	}
}

// Every text takes its values in metric and imperial units, in British and American
// English and in a language with a comma: in inches no millimetre is shown and in
// millimetres no inch, but for a pipe's nominal size.
func TestTextsTakeTheirValues(t *testing.T) {
	files, err := fs.Sub(assets.Words(), words.British)
	if err != nil {
		t.Fatal(err)
	}
	comma := fstest.MapFS{}
	for _, tag := range []string{words.British, "de"} {
		names, _ := fs.Glob(files, "*.json")
		for _, name := range names {
			data, _ := fs.ReadFile(files, name)
			comma[tag+"/"+name] = &fstest.MapFile{Data: data}
		}
	}
	german, err := words.Load(comma)
	if err != nil {
		t.Fatal(err)
	}
	shelf, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	said, err := saidIn("./...")
	if err != nil {
		t.Fatal(err)
	}
	filled := 0
	for id, s := range said {
		for _, values := range s.values {
			m := message.Of(id, values...)
			size := slices.ContainsFunc(values, func(a message.Arg) bool { _, is := a.Value.(message.Size); return is })
			for _, units := range []unit.System{unit.Metric, unit.Imperial} {
				missing := func(m message.Message) { t.Errorf("%s cannot be filled in: %s", m, s.at) }
				for _, b := range []words.Book{shelf.Book(words.British, units, missing), shelf.Book(words.American, units, missing), german.Book("de", units, missing)} {
					text := b.Say(m)
					filled++
					switch {
					case text == "" || strings.Contains(text, "no value") || strings.Contains(text, "{{"):
						t.Errorf("%s is “%s”", id, text)
					case units == unit.Imperial && !size && millimetres.MatchString(text), units == unit.Metric && inches.MatchString(text):
						t.Errorf("%s in %s units: “%s”", id, units, text)
					case b.Language() == "de" && strings.Contains(text, "3.2") || b.Language() == "de" && strings.Contains(text, "0.3"):
						t.Errorf("%s with a comma: “%s”", id, text)
					}
				}
			}
		}
	}
	if filled < 500 {
		t.Errorf("only %d texts were filled in", filled)
	}
}

// A length in each system's units.
var (
	millimetres = regexp.MustCompile(`\d ?mm\b`)
	inches      = regexp.MustCompile(`\d"|in/ft`)
)

// Of what stands in the program: a plain word with its place, and one with the names
// of its values.
func TestSaidIn(t *testing.T) {
	said, err := saidIn("./app")
	if err != nil {
		t.Fatal(err)
	}
	if s := said["tool.undo"]; s == nil || !strings.Contains(s.at, "app/follow.go:") {
		t.Errorf("“Undo”: %+v", s)
	}
	want := [][]message.Arg{{message.N("there", 2), message.No("all", 3)}}
	if s := said["app.replace-files"]; s == nil || !reflect.DeepEqual(s.values, want) {
		t.Errorf("files to be replaced: %+v, want the values %v", s, want)
	}
	said, err = saidIn("./app/space")
	if err != nil {
		t.Fatal(err)
	}
	want = [][]message.Arg{{{Name: "level", Value: message.Level{MM: -72.34}}}}
	if s := said["readout.level"]; s == nil || !reflect.DeepEqual(s.values, want) {
		t.Errorf("the level under the pointer: %+v, want the values %v", s, want)
	}
}

func TestCompare(t *testing.T) {
	shelf, err := words.Load(fstest.MapFS{
		"en-GB/all.json": {Data: []byte(`{
			"a": "A {{.x}}", "b": {"one": "{{.n}} thing", "other": "{{.n}} things of {{.whom}}"}, "c": "C"
		}`)},
		"en-US/all.json": {Data: []byte(`{"a": "A {{.y}}", "b": {"one": "{{.n}} piece", "other": "{{.n}} things of {{.whom}}"},
			"c": "C", "d": "D"}`)},
	})
	if err != nil {
		t.Fatal(err)
	}
	said := map[message.ID]*saying{
		"a": {at: "a.go:1", values: [][]message.Arg{{message.MM("x", 1)}, {message.MM("x", 1), message.MM("z", 1)}}},
		"b": {at: "b.go:1", values: [][]message.Arg{{message.N("n", 1), message.Name("whom", "me")}, {message.N("n", 1)}}},
		"e": {at: "e.go:1"},
	}
	want := []string{
		"a: the text in en-US asks for {{.y}}, which it is not given: a.go:1",
		"a: the text in en-US asks for {{.y}}, which it is not given: a.go:1",
		"b: the text in en-GB asks for {{.whom}}, which it is not given: b.go:1",
		"b: the text in en-US asks for {{.whom}}, which it is not given: b.go:1",
		"e has no text: e.go:1",
		"c has a text, but nothing says it",
		"c: the text in en-US is that in en-GB",
		"d has a text in en-US, but none in en-GB",
	}
	var got []string
	for _, fault := range compare(said, shelf) {
		got = append(got, fault.Error())
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}
