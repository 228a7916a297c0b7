package words_test

import (
	"strings"
	"testing"

	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// books are Underfall's own catalogues: British in millimetres, American in inches.
func books(t *testing.T) (british, american words.Book) {
	t.Helper()
	s, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	missing := func(m message.Message) { t.Errorf("no words for %s", m) }
	return s.Book(words.British, unit.Metric, missing), s.Book(words.American, unit.Imperial, missing)
}

// What is wrong with a job is said with its place and what to do, in the units of
// whoever reads it: the shower ends at the end of its wall, 2400, and is moved on.
func TestProblemsAreSaid(t *testing.T) {
	british, american := books(t)
	for _, c := range []struct {
		change       func(*job.Job)
		says, inches string
	}{
		{func(j *job.Job) { j.Shower.DepthMM = 299 },
			"Depth (Shower): must be between 300 mm and 10000 mm", `Depth (Shower): must be between 11 13/16" and 32' 9 11/16"`},
		{func(j *job.Job) { j.Shower.OffsetMM = 1050.3 },
			"Shower area: reaches 51 mm out of the room at its back left corner, as seen facing the back wall; move it or make it smaller",
			`Shower area: reaches 2" out of the room at its back left corner, as seen facing the back wall; move it or make it smaller`},
		{func(j *job.Job) { j.Room.Doorways[0].OffsetMM = 1700 },
			"Doorway 1: the doorway reaches past the end of its wall, which is 2400 mm long; move it or make it narrower",
			`Doorway 1: the doorway reaches past the end of its wall, which is 7' 10 1/2" long; move it or make it narrower`},
		{func(j *job.Job) { j.Former.Slope = -0.1 },
			"Fall (Drain and trap): must be between level and 1:4 (250 mm/m)", "Slope (Drain and trap): must be between level and 3 in/ft"},
		{func(j *job.Job) { j.Room.Edge = "kerb" },
			"Open edge: “kerb” is not known; choose one of: Step, Ramp or Raise the whole room",
			"Open edge: “kerb” is not known; choose one of: Step, Ramp or Raise the whole room"},
		{func(j *job.Job) { j.Layers.Wall.Colour = "beige" },
			"Finish of the walls: “beige” is no colour; choose one from the list", "Finish of the walls: “beige” is no color; choose one from the list"},
		{func(j *job.Job) { j.Room.Outline = []plan.Point{{0, 0}, {2400, 1900}, {2400, 0}, {0, 1900}} },
			"Corners of the room: wall A crosses or touches wall C; put the corners in order around the room",
			"Corners of the room: wall A crosses or touches wall C; put the corners in order around the room"},
		{func(j *job.Job) { high := 2000.5; j.AsBuilt.BaseTopMM = &high },
			"As built: Base, top: must be between -2000 mm and 2000 mm", `As built: Base, top: must be between -78 3/4" and 78 3/4"`},
	} {
		j := job.New()
		c.change(&j)
		m := j.Validate().Message()
		if got := british.Say(m); got != c.says {
			t.Errorf("“%s”, want “%s”", got, c.says)
		}
		if got := american.Say(m); got != c.inches {
			t.Errorf("“%s”, want “%s”", got, c.inches)
		}
	}
	// All of them, one a line.
	j := job.New()
	j.Region, j.Units = "", "cubits"
	want := "Units: “cubits” is not known; choose one of: Millimetres or Feet and inches\nCountry: choose the country whose rules apply"
	if got := british.Say(j.Validate().Message()); got != want {
		t.Errorf("“%s”, want “%s”", got, want)
	}
}

// What is wrong with a file is said, where it is and what to do.
func TestFilesAreRefusedInWords(t *testing.T) {
	british, _ := books(t)
	good, err := job.New().Marshal()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ from, to, says string }{
		{string(good), "", "the file is empty; open another copy of it"},
		{string(good), "shower", "the file is damaged, at its character 1; open another copy of it"},
		{`"version": 11`, `"version": 12`,
			"this job was saved by a newer version of Underfall: its format is 12, and this Underfall reads up to 11; update Underfall to open it (the file was not changed)"},
		{`"heightMM": 2400`, `"heightMM": "high"`, "Room height (Room): a number should stand here, not words; open another copy of the file"},
		{`"wall": 2`, `"wall": 2.5`, "Back wall of the shower: a whole number should stand here, not 2.5; open another copy of the file"},
		{`"region"`, `"realm"`, "the file holds “realm”, which is no part of a job; was it written by a newer version or by hand?"},
	} {
		_, err := job.Parse([]byte(strings.Replace(string(good), c.from, c.to, 1)))
		if got := british.Say(message.OfError(err)); got != c.says {
			t.Errorf("“%s”, want “%s”", got, c.says)
		}
	}
}

// What cannot be read of a typed number is said, with what can be typed instead in
// the units of the job.
func TestTypedNumbersAreRefusedInWords(t *testing.T) {
	british, american := books(t)
	for _, c := range []struct{ typed, says, inches string }{
		{"", "type a number: for example 120, 12.5 cm or 1 m 20", `type a number: for example 4 3/4 or 3' 2 1/2"`},
		{"1,200", "“1,200” can be 1200 mm or 1.2 mm: choose one", "“1,200” can be 1200\" or 1.2\": choose one"},
		{"12 furlongs", "the unit “furlongs” is not known here; type for example 120, 12.5 cm or 1 m 20",
			`the unit “furlongs” is not known here; type for example 4 3/4 or 3' 2 1/2"`},
		{"4000", "this is 4000 mm, but must be between 0 mm and 3000 mm", `this is 4000", but must be between 0" and 118 1/8"`},
	} {
		_, err := unit.ParseWithin(c.typed, unit.Length, unit.Metric, 0, 3000)
		if got := british.Say(message.OfError(err)); got != c.says {
			t.Errorf("“%s”, want “%s”", got, c.says)
		}
		most := 3000.0
		if c.typed == "1,200" {
			most = 40000
		}
		_, err = unit.ParseWithin(c.typed, unit.Length, unit.Imperial, 0, most)
		if got := american.Say(message.OfError(err)); got != c.inches {
			t.Errorf("“%s”, want “%s”", got, c.inches)
		}
	}
}

// What is wrong with a thing of a list reads as a sentence of that thing. The starting room, 1900
// deep, has joists at 200, 600 … 1800: five.
func TestProblemsOfListsAreSaid(t *testing.T) {
	british, _ := books(t)
	said := func(change func(*job.Job)) string {
		j := job.New()
		j.Floor.Kind = job.FloorTimber
		j.Floor.Joists = job.Joists{DepthMM: 195, WidthMM: 47, SpacingMM: 400, FirstOffsetMM: 200}
		change(&j)
		return british.Say(j.Validate().Message())
	}
	cut := func(t job.Trim) func(*job.Job) {
		return func(j *job.Job) { j.Floor.Joists.Trims = []job.Trim{t} }
	}
	window := func(w job.Window) func(*job.Job) {
		return func(j *job.Job) { j.Room.Windows = []job.Window{w} }
	}
	for _, c := range []struct {
		change func(*job.Job)
		want   string
	}{
		{cut(job.Trim{Joist: 9, FromMM: 300, ToMM: 900}),
			"Trimmed opening 1: the first joist cut out is number 9, but the floor has 5 joists, counted from wall A; give one of them"},
		{cut(job.Trim{Joist: 3, Further: 3, FromMM: 300, ToMM: 900}),
			"Trimmed opening 1: the next joists cut as well are 3, but only 2 joists lie after joist 3 from wall A"},
		{cut(job.Trim{Joist: 3, FromMM: 300, ToMM: 2500}),
			"Trimmed opening 1: the opening ends at 2500 mm along the joist, which is only 2400 mm long"},
		{cut(job.Trim{Joist: 3, FromMM: 300, ToMM: 200}),
			"Trimmed opening 1: the opening ends at 200 mm along the joist, and must end further along than it begins, at 300 mm"},
		{cut(job.Trim{Joist: 3, FromMM: 20, ToMM: 900}),
			"Trimmed opening 1: the opening begins at 20 mm along the joist; " +
				"let it begin at 0, where the joist is cut back to its start, or at 97 mm or more, which leaves a piece and the trimmer"},
		{cut(job.Trim{Joist: 3, FromMM: -1, ToMM: 900}),
			"Trimmed opening 1: “Cut out from” must be between 0 mm and 50000 mm"},
		{window(job.Window{OffsetMM: 2000, WidthMM: 600, SillMM: 900, HeightMM: 600}),
			"Window 1: it reaches past the end of its wall, which is 2400 mm long; move it or make it narrower"},
		{window(job.Window{Wall: 8, OffsetMM: 200, WidthMM: 600, SillMM: 900, HeightMM: 600}),
			"Window 1: the room has no such wall; choose one of its 4 walls, A to D"},
		{func(j *job.Job) { j.Room.Doorways[0].OffsetMM = 2000 },
			"Doorway 1: the doorway reaches past the end of its wall, which is 2400 mm long; move it or make it narrower"},
	} {
		if got := said(c.change); got != c.want {
			t.Errorf("“%s”\nwant “%s”", got, c.want)
		}
	}
}
