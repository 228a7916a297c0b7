package part_test

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underfall/geometry/message"
	"underfall/geometry/part"
)

func table(t interface{ Fatal(...any) }, s part.Shelf) string {
	data, err := part.MarshalCSV(s)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// A row for each value, by hand: what says nothing is left out, but for numbers that
// every part of its kind has.
func TestTableByHand(t *testing.T) {
	x := layer()
	x.Called, x.Regions, x.ToleranceMM = `Two "coats", thick`, []string{"UK", "IE"}, 0
	d := drain()
	d.Outlets[0].Capacity[0] = part.HeadFlow{}
	got := table(t, part.Shelf{Layers: []part.Layer{x}, Drains: []part.Drain{d}})
	want := `kind,id,field,value
shelf,,version,1
drain,linear,source.mark,common-practice
drain,linear,linear,true
drain,linear,lengthsMM[0],600
drain,linear,lengthsMM[1],900
drain,linear,lengthsMM[2],1200
drain,linear,widthMM,70
drain,linear,flangeMM,30
drain,linear,channelDepthMM,20
drain,linear,bodyDepthMM,92.5
drain,linear,bodySizeMM,110
drain,linear,weirDepthMM,30
drain,linear,sealMM,50
drain,linear,passageMM,10
drain,linear,outlets[0].nominalMM,40
drain,linear,outlets[0].joint,nut
drain,linear,outlets[0].invertDepthMM,75
drain,linear,outlets[0].jointOutsideMM,56
drain,linear,outlets[0].jointMM,25
drain,linear,outlets[0].capacity[0].headMM,0
drain,linear,outlets[0].capacity[0].flowLPS,0
drain,linear,outlets[0].capacity[1].headMM,20
drain,linear,outlets[0].capacity[1].flowLPS,0.6
drain,linear,coverLeastMM,8
drain,linear,coverGreatestMM,25
drain,linear,leastFormerMM,15
drain,linear,liftsOut,true
layer,liquid,called,"Two ""coats"", thick"
layer,liquid,regions[0],UK
layer,liquid,regions[1],IE
layer,liquid,source.mark,common-practice
layer,liquid,use,tanking
layer,liquid,thicknessMM,1
layer,liquid,toleranceMM,0
`
	if got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
}

// A shelf that is written as a table reads back as it was.
func TestTableReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := someShelf.Draw(t, "shelf")
		text := table(t, s)
		back, err := part.ParseCSV([]byte(text))
		if err != nil || !reflect.DeepEqual(back, s) {
			t.Fatalf("%v\n%+v, want\n%+v", err, back, s)
		}
	})
}

// A spreadsheet may put a mark before the text, other ends of line, the parts in
// another order.
func TestTableFromASpreadsheet(t *testing.T) {
	head, rows, _ := strings.Cut(table(t, part.Shelf{Layers: []part.Layer{layer()}, Tiles: []part.Tile{tile()}}), "\n")
	version, parts, _ := strings.Cut(rows, "\n")
	at := strings.Index(parts, "tile,")
	text := "\ufeff" + strings.ReplaceAll(head+"\n"+parts[at:]+parts[:at]+version+"\n", "\n", "\r\n")
	s, err := part.ParseCSV([]byte(text))
	want := part.Shelf{Version: part.Version, Layers: []part.Layer{layer()}, Tiles: []part.Tile{tile()}}
	if err != nil || !reflect.DeepEqual(s, want) {
		t.Errorf("%v: %+v", err, s)
	}
}

func TestTablesRefused(t *testing.T) {
	sound := table(t, part.Shelf{Layers: []part.Layer{layer()}, Drains: []part.Drain{drain()}})
	change := func(from, to string) string {
		if !strings.Contains(sound, from) {
			t.Fatalf("there is no %q", from)
		}
		return strings.Replace(sound, from, to, 1)
	}
	lines := strings.Count(sound, "\n")
	if lines != 32 {
		t.Fatalf("%d lines", lines)
	}
	for _, c := range []struct{ text, want string }{
		{"", "part.no-shelf"},
		{"a,b\n", "part.csv.line{line: 1, why: part.csv.columns{columns: 4}}"},
		{"kind;id;field;value\n", "part.csv.line{line: 1, why: part.csv.columns{columns: 4}}"},
		{"value,kind,id,field\n", `part.csv.line{line: 1, why: part.csv.head{head: "kind,id,field,value"}}`},
		{"kind,id,field,value\n", "part.no-shelf"},
		{change("version,1", "version,0"), "part.csv.line{line: 2, why: part.no-shelf}"},
		{change("version,1", "version,one"), "part.csv.line{line: 2, why: part.no-shelf}"},
		{change("version,1", "edition,1"), "part.csv.line{line: 2, why: part.no-shelf}"},
		{change("version,1", "version,2"), "part.newer"},
		{change("shelf,,", "shelf,mine,"), `part.csv.line{line: 2, why: part.csv.kind{kind: "shelf"}}`},
		{change("shelf,,version,1\n", ""), "part.no-shelf"},
		{change("drain,linear,source", "sink,linear,source"), `part.csv.line{line: 3, why: part.csv.kind{kind: "sink"}}`},
		{change("widthMM", "wideMM"), `part.csv.line{line: 8, why: part.csv.field{field: "wideMM"}}`},
		{change("widthMM", "widthMM.mm"), `part.csv.line{line: 8, why: part.csv.field{field: "widthMM.mm"}}`},
		{change("widthMM", "widthMM[0]"), `part.csv.line{line: 8, why: part.csv.field{field: "widthMM[0]"}}`},
		{change("widthMM", ""), `part.csv.line{line: 8, why: part.csv.field{field: ""}}`},
		{change("widthMM", "id"), `part.csv.line{line: 8, why: part.csv.field{field: "id"}}`},
		{change("source.mark", "source"), `part.csv.line{line: 3, why: part.csv.field{field: "source"}}`},
		{change("lengthsMM[0]", "lengthsMM"), `part.csv.line{line: 5, why: part.csv.field{field: "lengthsMM"}}`},
		{change("lengthsMM[0]", "lengthsMM[00]"), `part.csv.line{line: 5, why: part.csv.field{field: "lengthsMM[00]"}}`},
		{change("lengthsMM[0]", "lengthsMM[-1]"), `part.csv.line{line: 5, why: part.csv.field{field: "lengthsMM[-1]"}}`},
		{change("lengthsMM[0]", "lengthsMM[0"), `part.csv.line{line: 5, why: part.csv.field{field: "lengthsMM[0"}}`},
		{change("lengthsMM[0]", "lengthsMM(0)"), `part.csv.line{line: 5, why: part.csv.field{field: "lengthsMM(0)"}}`},
		{change("lengthsMM[0]", "lengthsMM[1]"), `part.csv.line{line: 5, why: part.csv.order{field: "lengthsMM[1]"}}`},
		{change("lengthsMM[2]", "lengthsMM[1000000000]"), `part.csv.line{line: 7, why: part.csv.order{field: "lengthsMM[1000000000]"}}`},
		{change("outlets[0].joint,", "outlets[0]joint,"), `part.csv.line{line: 17, why: part.csv.field{field: "outlets[0]joint"}}`},
		{change("outlets[0].joint,", "outlets[0]..joint,"), `part.csv.line{line: 17, why: part.csv.field{field: "outlets[0]..joint"}}`},
		{change("flangeMM,30", "flangeMM,wide"), `part.csv.line{line: 9, why: part.csv.number{field: "flangeMM", value: "wide"}}`},
		{change("flangeMM,30", `flangeMM,"30,5"`), `part.csv.line{line: 9, why: part.csv.number{field: "flangeMM", value: "30,5"}}`},
		{change("linear,true", "linear,yes"), `part.csv.line{line: 4, why: part.csv.yes-or-no{field: "linear", value: "yes"}}`},
		{change("flangeMM,30", "widthMM,30"), `part.csv.line{line: 9, why: part.csv.twice{field: "widthMM", before: 8}}`},
		{change("flangeMM,30", "flangeMM,30,mm"), "part.csv.line{line: 9, why: part.csv.columns{columns: 4}}"},
		{change("flangeMM,30", `flangeMM,3"0`), "part.csv.line{line: 9, why: part.csv.quotes}"},
		{change("flangeMM,30", `flangeMM,-1`), `part.csv.line{line: 9, why: part.unsound{kind: part-kind.drain, part: "linear", field: "flangeMM", what: problem.between{`},
		{change("flangeMM,30", `flangeMM,NaN`), `part.csv.line{line: 9, why: part.unsound{kind: part-kind.drain, part: "linear", field: "flangeMM", what: problem.between{`},
		{change("layer,liquid,use,tanking\n", ""), `part.csv.line{line: 29, why: part.unsound{kind: part-kind.layer, part: "liquid", field: "use", what: part.problem.use{`},
		{sound + strings.Repeat("\n", part.LargestShelf), "part.too-large{megabytes: 4}"},
	} {
		s, err := part.ParseCSV([]byte(c.text))
		if err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%v, want %s", err, c.want)
		}
		if !reflect.DeepEqual(s, part.Shelf{}) {
			t.Errorf("a shelf comes with %v", err)
		}
		if told := (*message.Error)(nil); !errors.As(err, &told) {
			t.Errorf("%v has no words", err)
		}
	}
	if _, err := part.ParseCSV([]byte(change("version,1", "version,2"))); !errors.Is(err, part.ErrNewer) {
		t.Errorf("%v is not known as newer", err)
	}
}

// What is read can be written, and reads back the same.
func FuzzParseCSV(f *testing.F) {
	f.Add(table(f, whole()))
	f.Add("kind,id,field,value\nshelf,,version,1\ntile,a,regions[0],UK\n")
	f.Add("kind,id,field,value\r\nshelf,,version,1\r\nlayer,\"a\nb\",called,\"\"\"\"\r\n")
	f.Fuzz(func(t *testing.T, text string) {
		s, err := part.ParseCSV([]byte(text))
		if err != nil {
			return
		}
		if err := s.Check(); err != nil {
			t.Fatal(err)
		}
		again := table(t, s)
		back, err := part.ParseCSV([]byte(again))
		if err != nil {
			t.Fatalf("a table that was read cannot be read again: %v", err)
		}
		if now := table(t, back); now != again {
			t.Fatalf("%s, want %s", now, again)
		}
	})
}
