package job_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
)

// noInput are the fields of a job's file that are no inputs of a station, with the reason.
var noInput = map[string]string{
	"version":         "of the file, not of the floor",
	"edition":         "kept from the rules the job was drawn up under",
	"name":            "of the job as a whole: stands in the window's bar",
	"notes":           "of the job as a whole",
	"region":          "of the job as a whole: brings its rules and parts along",
	"units":           "of the job as a whole: how it is shown",
	"standings":       "what is known of the inputs themselves",
	"room.tape.drawn": "how the room was drawn before it was measured: the first measure brings it along",
	"base.screed":     "comes with the boards chosen, or none",
	"former.mortar":   "comes with the former chosen",
}

// noField are the inputs that stand in no file by themselves, with the reason.
var noField = map[string]string{
	job.OutletKey:     "the outlet's turn by the word for it",
	job.PipeSizeKey:   "all sizes of the pipe at once",
	job.ExitInvertKey: "stands in the exit's level, which is written in a way of its own",
}

// fieldsOf are the paths of a type in a job's file. What a list holds is its own.
func fieldsOf(t reflect.Type, path string) []string {
	if path == "parts" {
		return []string{"parts.pipe", "parts.drain", "parts.boards", "parts.former", "parts.shower.tile", "parts.shower.tanking", "parts.shower.bed",
			"parts.room.tile", "parts.room.tanking", "parts.room.bed", "parts.wall.tile", "parts.wall.tanking", "parts.wall.bed"}
	}
	leaf := t.Kind() != reflect.Struct || t == reflect.TypeFor[job.ExitLevel]()
	if leaf {
		return []string{path}
	}
	var out []string
	for i := range t.NumField() {
		f := t.Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case f.Anonymous && name == "":
			out = append(out, fieldsOf(f.Type, path)...)
		case f.IsExported():
			out = append(out, fieldsOf(f.Type, strings.TrimPrefix(path+"."+name, "."))...)
		}
	}
	return out
}

// Every field of a job's file is stated at exactly one station, or is no input for a reason.
func TestEveryFieldHasAStation(t *testing.T) {
	of := map[string]int{}
	for _, in := range job.Inputs() {
		of[in.Key]++
		if of[in.Key] > 1 {
			t.Errorf("%s has %d rows", in.Key, of[in.Key])
		}
	}
	fields := fieldsOf(reflect.TypeFor[job.Job](), "")
	for _, f := range fields {
		switch _, none := noInput[f]; {
		case none && of[f] > 0:
			t.Errorf("%s is an input after all", f)
		case !none && of[f] == 0:
			t.Errorf("%s has no row", f)
		}
	}
	for key := range of {
		if _, none := noField[key]; none == slices.Contains(fields, key) {
			t.Errorf("%s: stands in the file by itself %v", key, !none)
		}
	}
}

// A row is of exactly one kind.
func TestInputsAreOfOneKind(t *testing.T) {
	for _, in := range job.Inputs() {
		n := 0
		for _, is := range []bool{in.Number != nil, in.Maybe != nil, in.Choice != nil, in.Flag != nil, in.Wall != nil,
			in.Things != nil, in.Lines != nil, in.Worded} {
			if is {
				n++
			}
		}
		if n != 1 || in.Station == "" {
			t.Errorf("%s at %q is of %d kinds", in.Key, in.Station, n)
		}
	}
}

// The stations stand in the order of the work, each with its first fields before the less used,
// and no row of one among those of another.
func TestStationsInOrder(t *testing.T) {
	want := []job.Station{"room", "floor", "shower", "drain", "way-out", "finish", "on-site"}
	if got := job.Stations(); !slices.Equal(got, want) {
		t.Errorf("stations %v", got)
	}
	all, n := append(job.Stations(), job.HowExact), 0
	for _, s := range all {
		less := false
		for _, in := range job.At(s) {
			if in.First && less {
				t.Errorf("%s is first, after the less used of %s", in.Key, s)
			}
			less = !in.First
			n++
		}
	}
	if n != len(job.Inputs()) {
		t.Errorf("%d inputs at the stations of %d", n, len(job.Inputs()))
	}
}

// A path of a file is led to the station at which it is stated, by hand.
func TestStationOf(t *testing.T) {
	for path, want := range map[string]job.Station{
		"room.outline[2]": "room", "room.doorways[1].widthMM": "room", "room.walls[0].studWidthMM": "room", "room": "room",
		"room.edge": "shower", "room.rampRunMM": "shower", "floor.joists.supportsMM[1]": "floor", "spotLevels[3].levelMM": "floor",
		"shower.widthMM": "shower", "shower.head.heightMM": "drain", "former.slope": "drain", "base.boardsMM[0]": "drain", "drain.sealMM": "drain",
		"water.showerFlowsLPS": "drain", "waste.exit.offsetMM": "way-out", "waste.exit.level": "way-out", "waste": "way-out", "waste.beyond": "way-out",
		"layers.shower.tile.thicknessMM": "finish", "layers.shower.tile.toleranceMM": "how-exact", "style.metal": "finish",
		"asBuilt.baseTopMM": "on-site", "tolerances.pipeMM": "how-exact", "parts.drain": "drain", "parts.pipe.sizes[2]": "way-out",
		"notes": "", "nonsense": "",
	} {
		if got, ok := job.StationOf(path); got != want || ok != (want != "") {
			t.Errorf("%s is stated at %q, want %q", path, got, want)
		}
	}
}

// What a row reads is what its edit set, and the edit changes nothing else that a person states.
func TestInputsReadWhatWasSet(t *testing.T) {
	shelf := part.Shelf{}
	for _, start := range []job.Job{job.New(), job.NewInInches()} {
		for _, in := range job.Inputs() {
			j := start.Clone()
			switch {
			case in.Maybe != nil:
				for _, mm := range []float64{in.Maybe.Least, 12.5, in.Maybe.Greatest} {
					set := edit.Perhaps(in, &mm).Apply(j)
					if got, ok := in.Maybe.At(&set); !ok || got != mm {
						t.Errorf("%s set to %v reads %v, %v", in.Key, mm, got, ok)
					}
					gone := edit.Perhaps(in, nil).Apply(set)
					if _, ok := in.Maybe.At(&gone); ok {
						t.Errorf("%s is not taken away", in.Key)
					}
				}
			case in.Flag != nil:
				set := edit.Flag(in, true).Apply(j)
				if !*in.Flag(&set) || *in.Flag(&j) {
					t.Errorf("%s: set %v, before %v", in.Key, *in.Flag(&set), *in.Flag(&j))
				}
			case in.Wall != nil:
				set := edit.AtWall(in, 1).Apply(j)
				if *in.Wall(&set) != 1 {
					t.Errorf("%s is wall %d", in.Key, *in.Wall(&set))
				}
			case in.Choice != nil && in.Choice.Parts == nil && in.Uses(&j):
				for _, o := range in.Choice.Options(&j, &shelf) {
					set := edit.Choose(in, o.Value, edit.Outside{Shelf: shelf}).Apply(j)
					if got := in.Choice.At(&set); got != o.Value {
						t.Errorf("%s set to %q reads %q", in.Key, o.Value, got)
					}
				}
			}
		}
	}
}

// Lists of numbers read as they were set, in the order they are kept in.
func TestLinesReadWhatWasSet(t *testing.T) {
	for key, c := range map[string]struct{ set, want [][]float64 }{
		job.OutlineKey:            {[][]float64{{0, 0}, {3000, 0}, {3000, 2000}, {0, 2000}}, nil},
		"spotLevels":              {[][]float64{{300, 400, 2.5}, {900, 400, 3, 0.5}}, [][]float64{{300, 400, 2.5, job.UsualReadingMM}, {900, 400, 3, 0.5}}},
		"floor.joists.supportsMM": {[][]float64{{0}, {2400}}, nil},
		"water.showerFlowsLPS":    {[][]float64{{0.2}, {0.15}}, nil},
		job.BoardsKey:             {[][]float64{{30}, {12}, {30}}, [][]float64{{12}, {30}}},
		job.SoldLengthsKey:        {[][]float64{{900}, {600}}, [][]float64{{600}, {900}}},
		job.CapacityCurveKey:      {[][]float64{{10, 0.4}}, nil},
		"waste.waypoints":         {[][]float64{{700, 1200}}, nil},
		"waste.exit.at":           {[][]float64{{300, 400}}, nil},
	} {
		in, ok := job.FindInput(key)
		if !ok || in.Lines == nil {
			t.Fatalf("%s is no list", key)
		}
		if c.want == nil {
			c.want = c.set
		}
		j := edit.Lines(in, c.set).Apply(job.New())
		if got := in.Lines.Get(&j); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s set to %v reads %v", key, c.set, got)
		}
		if key == job.BoardsKey {
			continue
		}
		if p := j.Validate(); len(p) > 0 {
			t.Errorf("%s: %v", key, p)
		}
	}
	for _, in := range job.Inputs() {
		if in.Lines == nil {
			continue
		}
		for _, item := range in.Lines.Hint {
			if len(item) < in.Lines.Least || len(item) > len(in.Lines.Columns) {
				t.Errorf("the example of %s has %d numbers", in.Key, len(item))
			}
		}
	}
}

// The room's walls are a list that nothing is added to; the length of one follows from the corners
// and moves the next: of the starting room, 2400 by 1900, the first wall at 3000.
func TestWallsAreAFixedList(t *testing.T) {
	in, _ := job.FindInput(job.WallsKey)
	l := *in.Things
	j := job.New()
	l.Add(&j)
	l.Remove(&j, 0)
	if len(j.Room.Walls) != 4 || !l.Full(&j) {
		t.Fatalf("%d walls", len(j.Room.Walls))
	}
	side := l.Entries()[0]
	if got := *side.Number.At(&j, 0); got != 2400 {
		t.Errorf("the first wall is %v long", got)
	}
	mm := 3000.0
	longer := edit.ItemNumber(l, 0, side, &mm).Apply(j)
	if got := longer.Room.Outline; got[1] != (plan.Point{3000, 0}) || got[2] != (plan.Point{3000, 1900}) {
		t.Errorf("corners %v", got)
	}
	stud := edit.ItemChoice(l, 2, l.Entries()[1], string(job.WallStud)).Apply(j)
	if w := stud.Room.Walls[2]; w.Kind != job.WallStud || w.StudSpacingMM == 0 {
		t.Errorf("a stud wall without studs: %+v", w)
	}
	for _, wall := range job.Lists() {
		if wall.Key == job.WallsKey {
			t.Error("walls are among the lists that are added to")
		}
	}
}
