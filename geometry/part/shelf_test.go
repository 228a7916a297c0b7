package part_test

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underfall/geometry/message"
	"underfall/geometry/part"
)

// whole is a shelf with a part of every kind.
func whole() part.Shelf {
	return part.Shelf{Version: part.Version, Pipes: []part.PipeSystem{pipes()}, Boards: []part.Boards{boards(), screed()}, Formers: []part.Former{former()}, Drains: []part.Drain{drain()},
		Tiles: []part.Tile{tile()}, Layers: []part.Layer{layer()}, Timber: []part.Timber{timber()}}
}

func marshal(t interface{ Fatal(...any) }, s part.Shelf) []byte {
	data, err := s.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// A shelf that is written reads back as it was.
func TestShelfReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := someShelf.Draw(t, "shelf")
		back, err := part.ParseShelf(marshal(t, s))
		if err != nil || !reflect.DeepEqual(back, s) {
			t.Fatalf("%v\n%+v, want\n%+v", err, back, s)
		}
	})
}

// What is left out says nothing, and a shelf always says its version.
func TestShelfAsWritten(t *testing.T) {
	got := string(marshal(t, part.Shelf{Layers: []part.Layer{layer()}}))
	want := `{
 "version": 1,
 "layers": [
  {
   "id": "liquid",
   "source": {
    "mark": "common-practice"
   },
   "use": "tanking",
   "thicknessMM": 1,
   "toleranceMM": 0.3
  }
 ]
}
`
	if got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

func TestShelvesRefused(t *testing.T) {
	layers := func(rows string) string { return `{"version": 1, "layers": [` + rows + `]}` }
	const sound = `{"id": "liquid", "source": {"mark": "common-practice"}, "use": "tanking", "thicknessMM": 1, "toleranceMM": 0.3}`
	if _, err := part.ParseShelf([]byte(layers(sound))); err != nil {
		t.Fatal(err)
	}
	for says, text := range map[string]string{
		"open.damaged{at: 0}":                             ``,
		"open.damaged{at: 13}":                            `{"version": }`,
		"part.no-shelf":                                   `{"layers": []}`,
		"part.no-shelf ":                                  `{"version": 0}`,
		"part.newer":                                      `{"version": 2, "lamps": [{"watt": 3}]}`,
		`part.wrong-kind{field: "version`:                 `{"version": "1"}`,
		`open.unknown-name{name: "lamps`:                  `{"version": 1, "lamps": []}`,
		`open.unknown-name{name: "watt"`:                  layers(strings.Replace(sound, `"use"`, `"watt": 3, "use"`, 1)),
		`part.wrong-kind{field: "layers.thicknessMM`:      layers(strings.Replace(sound, `1, "tol`, `"1", "tol`, 1)),
		`part.twice{kind: part-kind.layer, id: "liquid"}`: layers(sound + "," + sound),
		`part.unsound{kind: part-kind.layer, part: "liquid", field: "thicknessMM", what: problem.between{`: layers(strings.Replace(sound, `1, "tol`, `-1, "tol`, 1)),
		`part.unsound{kind: part-kind.layer, part: "My own", field: "thicknessMM"`:                         layers(strings.Replace(sound, `1, "tol`, `-1, "called": "My own", "tol`, 1)),
		"open.damaged{at: ":            layers(sound) + "x",
		"part.too-large{megabytes: 4}": layers(sound) + strings.Repeat(" ", part.LargestShelf),
	} {
		s, err := part.ParseShelf([]byte(text))
		if err == nil || !strings.HasPrefix(err.Error()+" ", strings.TrimSuffix(says, " ")) {
			t.Errorf("%.80s: %v, want %s", text, err, says)
		}
		if !reflect.DeepEqual(s, part.Shelf{}) {
			t.Errorf("%.80s: a shelf comes with the refusal", text)
		}
		if told := (*message.Error)(nil); !errors.As(err, &told) {
			t.Errorf("%.80s: %v has no words", text, err)
		}
	}
	if _, err := part.ParseShelf([]byte(layers(sound) + strings.Repeat(" ", part.LargestShelf-len(layers(sound))))); err != nil {
		t.Errorf("the largest shelf: %v", err)
	}
	if _, err := part.ParseShelf([]byte(`{"version": 9}`)); !errors.Is(err, part.ErrNewer) {
		t.Errorf("%v is not known as newer", err)
	}
}

// Parts of different kinds may have one id.
func TestOneIDForTwoKinds(t *testing.T) {
	a, b := tile(), layer()
	a.ID, b.ID = "one", "one"
	s := part.Shelf{Tiles: []part.Tile{a}, Layers: []part.Layer{b}}
	if err := s.Check(); err != nil {
		t.Error(err)
	}
	if s.Find(part.KindTile, "one").Kind() != part.KindTile || s.Find(part.KindLayer, "one").Kind() != part.KindLayer || s.Find(part.KindDrain, "one") != nil || s.Find(part.KindTile, "two") != nil {
		t.Error("parts are not told apart by their kinds")
	}
}

func names(s part.Shelf) (out []string) {
	for p := range s.Each {
		out = append(out, string(p.Kind())+" "+p.Of().ID+" "+p.Of().Called)
	}
	return out
}

// A shelf gives its parts in the order in which a floor is put together, as far as it
// is asked.
func TestEach(t *testing.T) {
	want := []string{"timber c24 ", "boards foam ", "boards screed ", "former board ", "drain linear ", "pipe pipes ", "layer liquid ", "tile tile "}
	s := whole()
	if got := names(s); !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	n := 0
	for range s.Each {
		if n++; n == 2 {
			break
		}
	}
	if n != 2 {
		t.Errorf("stopped after %d", n)
	}
}

// Another's parts come first, and of two with one id only the other's.
func TestWith(t *testing.T) {
	named := func(id, called string) part.Tile { x := tile(); x.ID, x.Called = id, called; return x }
	ours := part.Shelf{Tiles: []part.Tile{named("a", ""), named("b", "")}, Layers: []part.Layer{layer()}}
	theirs := part.Shelf{Tiles: []part.Tile{named("c", "C"), named("b", "B")}, Drains: []part.Drain{drain()}}
	both := ours.With(theirs)
	want := []string{"drain linear ", "layer liquid ", "tile c C", "tile b B", "tile a "}
	if got := names(both); !slices.Equal(got, want) || both.Version != part.Version {
		t.Errorf("%q of version %d, want %q", got, both.Version, want)
	}
	if len(ours.Tiles) != 2 || ours.Tiles[1].Called != "" || len(theirs.Tiles) != 2 {
		t.Error("joining changes what is joined")
	}
	rapid.Check(t, func(t *rapid.T) {
		a, b := someShelf.Draw(t, "a"), someShelf.Draw(t, "b")
		both := a.With(b)
		if err := both.Check(); err != nil {
			t.Fatal(err)
		}
		for p := range b.Each {
			if !reflect.DeepEqual(both.Find(p.Kind(), p.Of().ID), p) {
				t.Fatalf("%s %s of the other is lost", p.Kind(), p.Of().ID)
			}
		}
		for p := range a.Each {
			if b.Find(p.Kind(), p.Of().ID) == nil && !reflect.DeepEqual(both.Find(p.Kind(), p.Of().ID), p) {
				t.Fatalf("%s %s is lost", p.Kind(), p.Of().ID)
			}
		}
	})
}

// What a function tells of goes, of every kind, and the rest stays in its order.
func TestWithout(t *testing.T) {
	s := whole()
	none := s.Without(func(part.Part) bool { return true })
	all := s.Without(func(part.Part) bool { return false })
	some := s.Without(func(p part.Part) bool { return p.Of().ID == "foam" || p.Kind() == part.KindTile })
	want := []string{"timber c24 ", "boards screed ", "former board ", "drain linear ", "pipe pipes ", "layer liquid "}
	if !reflect.DeepEqual(all, s) || !reflect.DeepEqual(none, part.Shelf{Version: part.Version}) || !slices.Equal(names(some), want) {
		t.Errorf("%q, want %q; of nothing %q, of all %q", names(some), want, names(none), names(all))
	}
}

func TestAdd(t *testing.T) {
	var s part.Shelf
	s.Add(whole())
	s.Add(part.Shelf{Pipes: []part.PipeSystem{pipes()}, Boards: []part.Boards{boards()}, Formers: []part.Former{former()}, Drains: []part.Drain{drain()},
		Tiles: []part.Tile{tile()}, Layers: []part.Layer{layer()}, Timber: []part.Timber{timber()}})
	want := []string{"timber c24 ", "timber c24 ", "boards foam ", "boards screed ", "boards foam ", "former board ", "former board ", "drain linear ", "drain linear ",
		"pipe pipes ", "pipe pipes ", "layer liquid ", "layer liquid ", "tile tile ", "tile tile "}
	if got := names(s); !slices.Equal(got, want) || s.Version != part.Version {
		t.Errorf("%q of version %d, want %q", got, s.Version, want)
	}
}

func TestSoldIn(t *testing.T) {
	of := func(id string, regions ...string) part.Tile { x := tile(); x.ID, x.Regions = id, regions; return x }
	all := []part.Tile{of("a", "UK", "IE"), of("b"), of("c", "US")}
	for region, want := range map[string]string{"UK": "a b", "IE": "a b", "US": "b c", "NZ": "b"} {
		var got []string
		for _, x := range part.SoldIn(all, region) {
			got = append(got, x.ID)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("in %s: %v, want %s", region, got, want)
		}
	}
}

// A part that somebody has named is called so, the others as the catalogue of words
// has it.
func TestNames(t *testing.T) {
	x := tile()
	if got := part.Name(x).String(); got != "part-name.tile.tile" {
		t.Error(got)
	}
	x.Called = "The blue one"
	if got := part.Name(x).String(); got != `own{text: "The blue one"}` {
		t.Error(got)
	}
	s := whole()
	s.Tiles = append(s.Tiles, x)
	want := []message.ID{"part-name.timber.c24", "part-name.boards.foam", "part-name.boards.screed", "part-name.former.board", "part-name.drain.linear", "part-name.pipe.pipes", "part-name.layer.liquid", "part-name.tile.tile"}
	if got := s.IDs(); !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	want = []message.ID{"part-kind.timber", "part-kind.boards", "part-kind.former", "part-kind.drain", "part-kind.pipe", "part-kind.layer", "part-kind.tile"}
	if got := part.IDs(); !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	own := part.Shelf{Tiles: []part.Tile{x, tile()}}
	if err := own.Named(whole()); err != nil {
		t.Error(err)
	}
	if err := own.Named(part.Shelf{Layers: []part.Layer{{About: part.About{ID: "tile"}}}}); err == nil || err.Error() != `part.nameless{kind: part-kind.tile, id: "tile"}` {
		t.Error(err)
	}
	if got := pipes().Sizes[0].Name().String(); got != `own{text: "DN 40"}` {
		t.Error(got)
	}
}

func TestOutlets(t *testing.T) {
	d := drain()
	second := d.Outlets[0]
	second.NominalMM = 50
	d.Outlets = append(d.Outlets, second)
	for nominalMM, want := range map[float64]struct {
		mm float64
		ok bool
	}{40: {40, true}, 50: {50, true}, 32: {40, false}, 44: {40, false}, 46: {50, false}, 110: {50, false}} {
		if o, ok := d.Outlet(nominalMM); o.NominalMM != want.mm || ok != want.ok {
			t.Errorf("for %v: %v, %v, want %v", nominalMM, o.NominalMM, ok, want)
		}
	}
	if _, ok := (&part.Drain{}).Outlet(40); ok {
		t.Error("there is an outlet where there is none")
	}
}

func TestNearestLength(t *testing.T) {
	d := drain() // sold in 600, 900 and 1200
	for atMostMM, want := range map[float64]float64{500: 600, 600: 600, 899: 600, 900: 900, 1199.9: 900, 5000: 1200} {
		if got := d.NearestLengthMM(atMostMM); got != want {
			t.Errorf("at most %v: %v, want %v", atMostMM, got, want)
		}
	}
	d.LengthsMM = nil
	if got := d.NearestLengthMM(777); got != 777 {
		t.Errorf("of any length: %v", got)
	}
}

// Outside 50, bore 46: wall 2. A socket of 61 stands 5.5 out. Usual fittings: socket
// 50 + 10, bends 25 + 0.3 × 50 and 25 + 0.7 × 50.
func TestPipeByHand(t *testing.T) {
	p := part.Pipe{OutsideDiameterMM: 50, BoreMM: 46, SocketOutsideMM: 61}
	if p.WallMM() != 2 || p.SocketMM() != 5.5 || (part.Pipe{OutsideDiameterMM: 50}).SocketMM() != 0 {
		t.Errorf("wall %v, socket %v", p.WallMM(), p.SocketMM())
	}
	if p = p.WithUsualFittings(); p.SocketOutsideMM != 60 || p.InsertionMM != 25 || p.Bend45FaceMM != 40 || p.Bend90FaceMM != 60 || p.BoreMM != 46 {
		t.Errorf("%+v", p)
	}
	s := pipes()
	if z, ok := s.Size(50); !ok || z.Called != "DN 50" {
		t.Errorf("%+v, %v", z, ok)
	}
	if z, ok := s.Size(45); ok || z.Called != "" {
		t.Errorf("%+v, %v", z, ok)
	}
}

// What is read can be written, and reads back the same.
func FuzzParseShelf(f *testing.F) {
	f.Add(marshal(f, whole()))
	f.Add([]byte(`{"version":1,"tiles":[{"id":"a"}]}`))
	f.Add([]byte(`{"version":1,"pipes":[{"id":"a","sizes":[{"nominalMM":1e308}]}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := part.ParseShelf(data)
		if err != nil {
			return
		}
		if err := s.Check(); err != nil {
			t.Fatal(err)
		}
		again := marshal(t, s)
		back, err := part.ParseShelf(again)
		if err != nil {
			t.Fatalf("a shelf that was read cannot be read again: %v", err)
		}
		if now := marshal(t, back); string(now) != string(again) {
			t.Fatalf("%s, want %s", now, again)
		}
		table, err := part.MarshalCSV(s)
		if err != nil {
			t.Fatal(err)
		}
		if back, err = part.ParseCSV(table); err != nil {
			t.Fatalf("%v in\n%s", err, table)
		}
		if now := marshal(t, back); string(now) != string(again) {
			t.Fatalf("as a table %s, want %s", now, again)
		}
	})
}

func ExampleDrain_Check() {
	d := part.Drain{About: part.About{ID: "mine", Called: "From the skip"}, WidthMM: 70, BodyDepthMM: 80, BodySizeMM: 110, WeirDepthMM: 30, SealMM: 50, PassageMM: 10}
	for _, p := range d.Check() {
		fmt.Println(p.Field, p.What.ID)
	}
	// Output:
	// source.mark part.problem.source
	// outlets part.problem.no-outlet
	// bodyDepthMM part.problem.body
}
