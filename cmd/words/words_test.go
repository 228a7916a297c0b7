package main

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/message"
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
	for _, fault := range compare(said, shelf) {
		t.Error(fault)
	}
}

// Of what stands in the program: a plain word with its place, and one with the names
// of its values.
func TestSaidIn(t *testing.T) {
	said, err := saidIn("./app")
	if err != nil {
		t.Fatal(err)
	}
	if s := said["tool.undo"]; s == nil || !strings.Contains(s.at, "app/window.go:") {
		t.Errorf("“Undo”: %+v", s)
	}
	want := [][]string{{"there", "all"}}
	if s := said["app.replace-pictures"]; s == nil || fmt.Sprint(s.values) != fmt.Sprint(want) {
		t.Errorf("pictures to be replaced: %+v, want the values %v", s, want)
	}
}

func TestCompare(t *testing.T) {
	shelf, err := words.Load(fstest.MapFS{
		"en-GB/all.json": {Data: []byte(`{
			"a": "A {{.x}}", "b": {"one": "{{.n}} thing", "other": "{{.n}} things of {{.whom}}"}, "c": "C"
		}`)},
		"en-US/all.json": {Data: []byte(`{"a": "A {{.y}}", "d": "D"}`)},
	})
	if err != nil {
		t.Fatal(err)
	}
	said := map[message.ID]*saying{
		"a": {at: "a.go:1", values: [][]string{{"x"}, {"x", "z"}}},
		"b": {at: "b.go:1", values: [][]string{{"n", "whom"}, {"n"}}},
		"e": {at: "e.go:1"},
	}
	want := []string{
		"a: the text in en-US asks for {{.y}}, which it is not given: a.go:1",
		"a: the text in en-US asks for {{.y}}, which it is not given: a.go:1",
		"b: the text in en-GB asks for {{.whom}}, which it is not given: b.go:1",
		"e has no text: e.go:1",
		"c has a text, but nothing says it",
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
