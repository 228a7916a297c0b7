package job_test

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
)

// noInput are the fields of a job's file that are no inputs of a station, with the reason.
var noInput = map[string]string{
	"version":         "of the file, not of the floor",
	"state":           "counts what was saved",
	"edition":         "kept from the rules the job was drawn up under",
	"name":            "of the job as a whole: stands in the window's bar",
	"notes":           "of the job as a whole",
	"region":          "of the job as a whole: brings its rules and parts along",
	"units":           "of the job as a whole: how it is shown",
	"picture":         "chosen in the picture itself",
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
		return []string{"parts.pipe", "parts.drain", "parts.boards", "parts.former",
			"parts.shower.tile", "parts.shower.tanking", "parts.shower.bed",
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
			in.Things != nil, in.Numbers != nil, in.Table != nil} {
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
		"shower.widthMM": "shower", "shower.head.heightMM": "drain",
		"former.slope": "drain", "base.boardsMM[0]": "drain", "drain.sealMM": "drain", "water.showerFlowsLPS": "drain",
		"waste.exit.offsetMM": "way-out", "waste.exit.level": "way-out", "waste": "way-out", "waste.beyond": "way-out",
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
func TestNumbersReadWhatWasSet(t *testing.T) {
	for key, c := range map[string]struct{ set, want []float64 }{
		"floor.joists.supportsMM": {[]float64{0, 2400}, []float64{0, 2400}},
		"water.showerFlowsLPS":    {[]float64{0.2, 0.15}, []float64{0.2, 0.15}},
		job.BoardsKey:             {[]float64{30, 12, 30}, []float64{12, 30}},
		job.SoldLengthsKey:        {[]float64{900, 600}, []float64{600, 900}},
	} {
		in, ok := job.FindInput(key)
		if !ok || in.Numbers == nil {
			t.Fatalf("%s is no list of numbers", key)
		}
		j := edit.Numbers(in, c.set).Apply(job.New())
		if got := in.Numbers.Get(&j); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s set to %v reads %v", key, c.set, got)
		}
		if key == job.BoardsKey {
			continue
		}
		if p := j.Validate(); len(p) > 0 {
			t.Errorf("%s: %v", key, p)
		}
	}
}

// tables are the tables of a job with rows to set, each sound.
var tables = map[string][][]float64{
	job.OutlineKey:       {{0, 0}, {3000, 0}, {3000, 2000}, {0, 2000}},
	job.SpotLevelsKey:    {{300, 400, 2.5, 1}, {900, 400, 3, 0.5}},
	job.CapacityCurveKey: {{10, 0.4}, {15, 0.5}},
	job.TurnsKey:         {{700, 1200}, {700, 900}},
	job.ExitAtKey:        {{300, 400}},
	job.ReadingsKey:      {{300, 400, 1000, 1, 0}, {900, 400, 997, 1, 0.5}},
}

// Tables read as they were set; each number has a path that leads to it and is one statement, on its own or
// with the others of a place or an outline.
func TestTablesReadWhatWasSet(t *testing.T) {
	n := 0
	for _, in := range job.Inputs() {
		if in.Table == nil {
			continue
		}
		n++
		table, rows := *in.Table, tables[in.Key]
		j := job.New()
		j.Waste.Exit.Kind = job.ExitFloor
		j = edit.Rows(in, rows).Apply(j)
		if got := table.Rows(&j); !reflect.DeepEqual(got, rows) {
			t.Errorf("%s set to %v reads %v", in.Key, rows, got)
		}
		if p := j.Validate(); len(p) > 0 {
			t.Errorf("%s: %v", in.Key, p)
		}
		for r := range rows {
			for c := range table.Columns {
				path := table.Path(r, c)
				if of, ok := job.InputOf(path); !ok || of.Key != in.Key || !j.HasInput(path) {
					t.Errorf("%s leads to %s, an input %v", path, of.Key, j.HasInput(path))
				}
				if v, ok := j.NumberAt(path); ok && v != rows[r][c] {
					t.Errorf("%s is %v, want %v", path, v, rows[r][c])
				}
				for _, s := range []job.Standing{job.Held, job.Stated} {
					j.SetStanding(path, s)
					if got := j.StandingOf(path); got != s || len(j.Validate()) > 0 {
						t.Errorf("%s stands as %q, want %q: %v", path, got, s, j.Validate())
					}
				}
			}
		}
	}
	if n != len(tables) {
		t.Errorf("%d tables, %d set", n, len(tables))
	}
}

// Every number of a table has the bounds that its check has: beyond them it is refused where it stands.
func TestTableNumbersHaveBounds(t *testing.T) {
	for _, in := range job.Inputs() {
		if in.Table == nil {
			continue
		}
		for c, column := range in.Table.Columns {
			for _, beyond := range []float64{column.Least - 0.01, column.Greatest + 0.01, math.NaN()} {
				j := job.New()
				j.Waste.Exit.Kind = job.ExitFloor
				rows := edit.Rows(in, tables[in.Key]).Apply(j)
				j = edit.Cell(in, 0, c, beyond).Apply(rows)
				found := slices.ContainsFunc(j.Validate(), func(p job.Problem) bool { return p.Key == in.Table.Path(0, c) })
				if !found {
					t.Errorf("%s may be %v: %v", in.Table.Path(0, c), beyond, j.Validate())
				}
			}
		}
	}
}

// Which way joists run is told by the wall that they run along, where there is one: of the starting room A lies along its x axis,
// B along its y axis.
func TestJoistsRunAlongAWall(t *testing.T) {
	j := job.New()
	j.Floor.Kind = job.FloorTimber
	for deg, want := range map[float64]message.Message{0: message.Of("named.joists-along", message.Wall("wall", 1)), 30: {}, 1: {}} {
		j.Floor.Joists.DirectionDeg = deg
		if got, _ := j.Named("floor.joists.directionDeg"); got.String() != want.String() {
			t.Errorf("at %v° it is called %v, want %v", deg, got, want)
		}
	}
	j.Floor.Joists.DirectionDeg = 90
	if got, ok := j.Named("floor.joists.directionDeg"); !ok || got.ID != "named.joists-along" {
		t.Errorf("at 90° it is called %v", got)
	}
}

// Places in plan are stated from the walls that run through their zero: of the starting room B at the left
// and A, with the door, in front. In a room that starts elsewhere they have no wall to be stated from.
func TestPlacesAreStatedFromWalls(t *testing.T) {
	j := job.New()
	j.Room.Stacks = []job.Stack{{At: plan.Point{200, 300}}}
	for path, want := range map[string]message.Message{
		"spotLevels[0].at[0]":   message.Of("named.from-wall", message.Wall("wall", 2)),
		"spotLevels[0].at[1]":   message.Of("named.from-wall", message.Wall("wall", 1)),
		"waste.waypoints[3][0]": message.Of("named.from-wall", message.Wall("wall", 2)),
		"waste.exit.at[1]":      message.Of("named.from-wall", message.Wall("wall", 1)),
		"room.stacks[0].at[0]":  message.Of("named.from-wall", message.Wall("wall", 2)),
		"room.outline[1][0]":    {}, "spotLevels[0].levelMM": {}, "[0]": {}, "": {},
	} {
		if got, _ := j.Named(path); got.String() != want.String() {
			t.Errorf("%q is called %v, want %v", path, got, want)
		}
	}
	for i := range j.Room.Outline {
		j.Room.Outline[i][0] += 100
	}
	if got, ok := j.Named("spotLevels[0].at[0]"); ok {
		t.Errorf("100 beside the wall it is called %v", got)
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

// A wall's own name stands behind its letter wherever the wall is named, and in the file; the letter stays.
func TestWallsOwnName(t *testing.T) {
	in, _ := job.FindInput(job.WallsKey)
	l := *in.Things
	name := l.Entries()[slices.IndexFunc(l.Entries(), func(e job.Entry) bool { return e.Text != nil })]
	j := edit.ItemText(l, 3, name, " window\twall ").Apply(job.New())
	if w := j.Room.Walls[3]; w.Name != "window wall" || j.Room.Letter(3).String() != "B" {
		t.Fatalf("%+v, %s", w, j.Room.Letter(3))
	}
	if got := j.Room.Called(3); got.Args[0].Value.String() != "B (window wall)" {
		t.Errorf("it is called %s", got)
	}
	if got := j.PlaceOf("room.walls[3].thicknessMM").String(); got != "place.wall-thickness{wall: B (window wall)}" {
		t.Errorf("its thickness is %s", got)
	}
	if got := j.Room.Called(2); got.Args[0].Value.String() != "C" {
		t.Errorf("a wall without a name is called %s", got)
	}
	data, err := j.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	if back, err := job.Parse(data); err != nil || back.Room.Walls[3].Name != "window wall" {
		t.Errorf("read back: %v", err)
	}
	j.Room.Walls[3].Name = strings.Repeat("é", 41)
	if p := j.Validate(); len(p) != 1 || p[0].Key != "room.walls[3].name" {
		t.Errorf("a name of 41: %v", p)
	}
	j.Room.Walls[3].Name = "é\u202ewall"
	if p := j.Validate(); len(p) != 1 || p[0].Key != "room.walls[3].name" {
		t.Errorf("a name with what cannot be seen: %v", p)
	}
}
