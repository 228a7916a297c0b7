package job_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
	"underfall/assets"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

func TestNewIsValid(t *testing.T) {
	if p := job.New().Validate(); len(p) > 0 {
		t.Fatalf("the starting job is not sound: %v", p)
	}
}

// Every number of a job survives saving and loading to the last bit.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := job.New()
		for _, p := range job.Parameters() {
			if rapid.Bool().Draw(t, p.Key+" set") {
				k := p.With(j, rapid.Float64Range(p.Least, p.Greatest).Draw(t, p.Key))
				if len(k.Validate()) == 0 {
					j = k
				}
			}
		}
		data, err := j.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		back, err := job.Parse(data)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(j, back); diff != "" {
			t.Fatalf("changed by saving and loading:\n%s", diff)
		}
	})
}

func TestValidateNamesTheField(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		change func(*job.Job)
		path   string
	}{
		"crossing outline": {func(j *job.Job) {
			j.Room.Outline = []plan.Point{{0, 0}, {2400, 1900}, {2400, 0}, {0, 1900}}
		}, "room.outline"},
		"two corners":           {func(j *job.Job) { j.Room.Outline = j.Room.Outline[:2] }, "room.outline"},
		"corner twice":          {func(j *job.Job) { j.Room.Outline[1] = j.Room.Outline[0] }, "room.outline[0]"},
		"corner at 1e9":         {func(j *job.Job) { j.Room.Outline[1] = plan.Point{1e9, 0} }, "room.outline[1][0]"},
		"corner not a number":   {func(j *job.Job) { j.Room.Outline[1] = plan.Point{nan, 0} }, "room.outline[1][0]"},
		"empty room":            {func(j *job.Job) { j.Room = job.Room{} }, "room.outline"},
		"wall missing":          {func(j *job.Job) { j.Room.Walls = j.Room.Walls[:3] }, "room.walls"},
		"stud spacing zero":     {func(j *job.Job) { j.Room.Walls[0].StudSpacingMM = 0 }, "room.walls[0].studSpacingMM"},
		"doorway past its wall": {func(j *job.Job) { j.Room.Doorways[0].OffsetMM = 2000 }, "room.doorways[0].offsetMM"},
		"doorways overlap": {func(j *job.Job) {
			j.Room.Doorways = append(j.Room.Doorways, j.Room.Doorways[0])
		}, "room.doorways[1]"},
		"joist spacing zero": {func(j *job.Job) {
			j.Floor.Kind = job.FloorTimber
			j.Floor.Joists.SpacingMM = 0
		}, "floor.joists.spacingMM"},
		"one support": {func(j *job.Job) {
			j.Floor.Kind = job.FloorTimber
			j.Floor.Joists.SupportsMM = []float64{0}
		}, "floor.joists.supportsMM"},
		"base let into a slab":    {func(j *job.Job) { j.Base.Support = job.BetweenJoists }, "base.support"},
		"negative former":         {func(j *job.Job) { j.Former.ThicknessAtDrainMM = -3 }, "former.thicknessAtDrainMM"},
		"fall not a number":       {func(j *job.Job) { j.Former.Slope = nan }, "former.slope"},
		"unused not a number":     {func(j *job.Job) { j.Room.RampRunMM = nan }, "room.rampRunMM"},
		"shower outside the room": {func(j *job.Job) { j.Shower.OffsetMM = 1500 }, "shower"},
		"drain outside":           {func(j *job.Job) { j.Drain.OffsetMM = 900 }, "drain.offsetMM"},
		"outlet askew":            {func(j *job.Job) { j.Drain.OutletTurnDeg = 30 }, "drain.outletTurnDeg"},
		"outlet under the trap":   {func(j *job.Job) { j.Drain.OutletInvertDepthMM = 200 }, "drain.trapDepthMM"},
		"bore over the pipe":      {func(j *job.Job) { j.Waste.BoreMM = 60 }, "waste.boreMM"},
		"exit wall unknown":       {func(j *job.Job) { j.Waste.Exit.Wall = 9 }, "waste.exit.wall"},
		"exit past its wall":      {func(j *job.Job) { j.Waste.Exit.OffsetMM = 5000 }, "waste.exit.offsetMM"},
		"exit level not a number": {func(j *job.Job) { j.Waste.Exit.Level = job.Exactly(nan) }, "waste.exit.level.invertMM"},
		"exit level at 1e9":       {func(j *job.Job) { j.Waste.Exit.Level = job.NotBelow(1e9) }, "waste.exit.level.invertMM"},
		"name too long":           {func(j *job.Job) { j.Name = strings.Repeat("a", 121) }, "name"},
		"name turns the text":     {func(j *job.Job) { j.Name = "shower\u202egnp.exe" }, "name"},
		"name clears the screen":  {func(j *job.Job) { j.Name = "\x1b[2J" }, "name"},
		"name of two lines":       {func(j *job.Job) { j.Name = "one\ntwo" }, "name"},
		"notes too long":          {func(j *job.Job) { j.Notes = strings.Repeat("a", 8001) }, "notes"},
		"notes with a bell":       {func(j *job.Job) { j.Notes = "line\n\a" }, "notes"},
		"negative flow":           {func(j *job.Job) { j.Water.ShowerFlowsLPS = []float64{-1} }, "water.showerFlowsLPS[0]"},
		"no region":               {func(j *job.Job) { j.Region = " " }, "region"},
		"units unknown":           {func(j *job.Job) { j.Units = "cubits" }, "units"},
		"colour":                  {func(j *job.Job) { j.Layers.Wall.Colour = "beige" }, "layers.wall.colour"},
	} {
		t.Run(name, func(t *testing.T) {
			j := job.New()
			c.change(&j)
			for _, p := range j.Validate() {
				if p.Key == c.path {
					if p.What.IsZero() {
						t.Errorf("%v says nothing", p)
					}
					return
				}
			}
			t.Errorf("problems %v, want one at %s", j.Validate(), c.path)
		})
	}
}

func TestParseRefuses(t *testing.T) {
	good, err := job.New().Marshal()
	if err != nil {
		t.Fatal(err)
	}
	edit := func(old, new string) []byte { return []byte(strings.Replace(string(good), old, new, 1)) }
	for name, c := range map[string]struct {
		data []byte
		says string
	}{
		"empty":         {nil, "open.empty"},
		"truncated":     {good[:len(good)/2], "open.damaged{at: "},
		"not JSON":      {[]byte("shower"), "open.damaged{at: 1}"},
		"another thing": {[]byte(`{"a":1}`), "open.no-job"},
		"version 0":     {edit(`"version": 11`, `"version": 0`), "open.unknown-version{version: 0}"},
		"unknown field": {edit(`"name"`, `"nom"`), `open.unknown-name{name: "nom"}`},
		"wrong type": {edit(`"heightMM": 2400`, `"heightMM": "high"`),
			"place.parameter{station: station.room, parameter: parameter.room.heightMM}, what: problem.wrong-kind{belongs: kind.number, found: kind.words}"},
		"list for one": {edit(`"accessible": false`, `"accessible": [1]`),
			"place.job, what: problem.wrong-kind{belongs: kind.yes-or-no, found: kind.list}"},
		"fraction": {edit(`"wall": 2`, `"wall": 2.5`),
			`place.shower-wall, what: problem.wrong-kind{belongs: kind.whole-number, found: own{text: "2.5"}}`},
		"1e9 mm": {edit(`"widthMM": 1400`, `"widthMM": 1e9`),
			"place.parameter{station: station.shower, parameter: parameter.shower.widthMM}, what: problem.between{least: 300 mm, greatest: 10000 mm}"},
		"trailing": {append(append([]byte{}, good...), good...), "open.damaged{at: "},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := job.Parse(c.data)
			if says := message.OfError(err).String(); !strings.Contains(says, c.says) {
				t.Errorf("it says %s, want one about %q", says, c.says)
			}
		})
	}
	_, err = job.Parse(edit(`"version": 11`, `"version": 12`))
	if !errors.Is(err, job.ErrNewer) {
		t.Errorf("a newer version gives %v, want ErrNewer", err)
	}
}

// Every problem says which place it is at: the nearest that has a name, of several
// counted from one.
func TestProblemsSpeakOfPlaces(t *testing.T) {
	for path, want := range map[string]string{
		"room.doorways[0].offsetMM": "place.item-entry{item: place.doorway{n: 1}, entry: item.room.doorways.offsetMM}",
		"room.doorways[11]":         "place.doorway{n: 12}",
		"room.outline[3][1]":        "place.corner{corner: 4}",
		"spotLevels[0].at[0]":       "place.laser-level{n: 1}",
		"shower.depthMM":            "place.parameter{station: station.shower, parameter: parameter.shower.depthMM}",
		"layers.wall.grout":         "place.wall-finish",
		"waste.exit.level.invertMM": "place.exit-level",
		"asBuilt.baseTopMM":         "place.as-built-level{level: parameter.asBuilt.baseTopMM}",
		"waste.fittings[2].boreMM":  "place.item-entry{item: place.fitting{n: 3}, entry: item.waste.fittings.boreMM}",
		"":                          "place.job",
		"standings":                 "place.standings",
		"nonsense[5]":               "place.job",
	} {
		p := job.Problem{Key: path, What: message.Of("problem.no-floor")}
		if got := job.PlaceInFile(p.Key).String(); got != want {
			t.Errorf("%q lies at %q, want %q", path, got, want)
		}
		want, _, _ = strings.Cut(strings.TrimPrefix(want, "place.item-entry{item: "), ", entry:")
		if got := p.Message().String(); got != "problem{place: "+want+", what: problem.no-floor}" {
			t.Errorf("of %q it says %q", path, got)
		}
	}
}

// savedJob is a file of an earlier version of the format, and the job that it opens as.
type savedJob struct {
	file, data string
	job        job.Job
}

// savedJobs are those in folders of the test data, of which there are so many at least.
func savedJobs(t *testing.T, folders string, least int) (out []savedJob) {
	t.Helper()
	files, err := filepath.Glob("testdata/" + folders + "/*.json")
	if err != nil || len(files) < least {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		j, err := job.Parse(data)
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		out = append(out, savedJob{file, string(data), j})
	}
	return out
}

// A job of version 5 knew no edition of rules and is the same otherwise: what is saved of
// it is the file with the version of now. Its parts are told of when they are wrong.
func TestVersion5HasNoEdition(t *testing.T) {
	saved := savedJobs(t, "version-5", 11)
	for _, old := range saved {
		if old.job.Edition != "" || old.job.Version != 11 {
			t.Fatalf("%s: version %d, edition %q", old.file, old.job.Version, old.job.Edition)
		}
		again, err := old.job.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(strings.Replace(old.data, `"version": 5`, `"version": 11`, 1), string(again)); diff != "" {
			t.Errorf("%s:\n%s", old.file, diff)
		}
	}
	for _, c := range []struct{ from, to, says string }{
		{`"accessible":`, `"edition": "2026-11", "accessible":`, `open.unknown-name{name: "edition"}`},
		{`"slabThicknessMM":`, `"spam":`, `open.unknown-name{name: "spam"}`},
		{`"walls": [`, `"walls": 5, "x": [`, "place.walls"},
	} {
		_, err := job.Parse([]byte(strings.Replace(saved[0].data, c.from, c.to, 1)))
		if says := message.OfError(err).String(); !strings.Contains(says, c.says) {
			t.Errorf("%s: it says %s, want one about %s", c.to, says, c.says)
		}
	}
}

// A job of version 6 knew nothing of standings and is the same otherwise: all is stated.
func TestVersion6HasNoStandings(t *testing.T) {
	for _, old := range savedJobs(t, "version-6", 11) {
		if old.job.Standings != nil || old.job.Version != 11 || old.job.Edition != "2026-11" {
			t.Fatalf("%s: version %d, edition %q, standings %v", old.file, old.job.Version, old.job.Edition, old.job.Standings)
		}
		again, err := old.job.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(strings.Replace(old.data, `"version": 6`, `"version": 11`, 1), string(again)); diff != "" {
			t.Errorf("%s:\n%s", old.file, diff)
		}
		with := strings.Replace(old.data, `"region":`, `"standings": {}, "region":`, 1)
		if _, err := job.Parse([]byte(with)); !strings.Contains(message.OfError(err).String(), `open.unknown-name{name: "standings"}`) {
			t.Errorf("%s with standings: %v", old.file, err)
		}
	}
}

// A job of version 7 knew no names of walls and is the same otherwise: none has one, and what is
// known of its inputs stays.
func TestVersion7HasNoNamesOfWalls(t *testing.T) {
	stood := 0
	for _, old := range savedJobs(t, "version-7", 12) {
		if old.job.Version != 11 {
			t.Fatalf("%s: version %d", old.file, old.job.Version)
		}
		stood += len(old.job.Standings)
		for i, w := range old.job.Room.Walls {
			if w.Name != "" {
				t.Errorf("%s: wall %d is called %q", old.file, i, w.Name)
			}
		}
		again, err := old.job.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(strings.Replace(old.data, `"version": 7`, `"version": 11`, 1), string(again)); diff != "" {
			t.Errorf("%s:\n%s", old.file, diff)
		}
		with := strings.Replace(old.data, `"walls": [
      {`, `"walls": [
      {"name": "tiled wall",`, 1)
		if _, err := job.Parse([]byte(with)); !strings.Contains(message.OfError(err).String(), `open.unknown-name{name: "name"}`) {
			t.Errorf("%s with a name of a wall: %v", old.file, err)
		}
	}
	if stood != 3 {
		t.Errorf("%d standings in all, want the 3 of one file", stood)
	}
}

// A job of version 8 was not counted when it was saved, knew neither the picture's light nor what was moved in it, and is
// the same otherwise: it counts from now, by day, all where the rules put it, and what is saved is told again.
func TestVersion8HasNeitherStateNorPicture(t *testing.T) {
	for _, old := range savedJobs(t, "version-8", 11) {
		if old.job.State != 0 || old.job.Version != 11 {
			t.Fatalf("%s: version %d, state %d", old.file, old.job.Version, old.job.State)
		}
		if old.job.Picture != nil || old.job.Lit() != (job.Light{Kind: job.LightDay, Hour: 11}) {
			t.Fatalf("%s: %v", old.file, old.job.Picture)
		}
		again, err := old.job.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(strings.Replace(old.data, `"version": 8`, `"version": 11`, 1), string(again)); diff != "" {
			t.Errorf("%s:\n%s", old.file, diff)
		}
		with := strings.Replace(old.data, `"name":`, `"state": 3, "name":`, 1)
		if _, err := job.Parse([]byte(with)); !strings.Contains(message.OfError(err).String(), `open.unknown-name{name: "state"}`) {
			t.Errorf("%s with a state: %v", old.file, err)
		}
		pictured := strings.Replace(old.data, `"region":`, `"picture": {"light": "evening", "hour": 11}, "region":`, 1)
		if _, err := job.Parse([]byte(pictured)); !strings.Contains(message.OfError(err).String(), `open.unknown-name{name: "picture"}`) {
			t.Errorf("%s with a picture: %v", old.file, err)
		}
		counted, err := job.Parse([]byte(strings.Replace(with, `"version": 8`, `"version": 11`, 1)))
		if err != nil || counted.State != 3 {
			t.Errorf("%s: state %d, %v", old.file, counted.State, err)
		}
	}
}

// A job of version 9 did not keep whether the picture's floor is wet, and is the same otherwise: it is dry, in the light and with
// the things that were kept.
func TestVersion9HasADryFloor(t *testing.T) {
	pictured := 0
	for _, old := range savedJobs(t, "version-9", 12) {
		if old.job.Version != 11 || old.job.Shown().Wet {
			t.Fatalf("%s: version %d, wet %v", old.file, old.job.Version, old.job.Shown().Wet)
		}
		again, err := old.job.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(strings.Replace(old.data, `"version": 9`, `"version": 11`, 1), string(again)); diff != "" {
			t.Errorf("%s:\n%s", old.file, diff)
		}
		if old.job.Picture == nil {
			continue
		}
		pictured++
		wetted := strings.Replace(old.data, `"picture": {`, `"picture": {"wet": true,`, 1)
		if _, err := job.Parse([]byte(wetted)); !strings.Contains(message.OfError(err).String(), `open.unknown-name{name: "wet"}`) {
			t.Errorf("%s with a wet floor: %v", old.file, err)
		}
		now, err := job.Parse([]byte(strings.Replace(wetted, `"version": 9`, `"version": 11`, 1)))
		if err != nil || !now.Shown().Wet {
			t.Errorf("%s: wet %v, %v", old.file, now.Shown().Wet, err)
		}
	}
	if pictured != 1 {
		t.Errorf("%d files with a picture, want 1", pictured)
	}
}

// A job of version 10 did not keep what levels were read on, and is the same otherwise: all on the structural floor, under whatever
// stays on it too.
func TestVersion10ReadsOnTheStructuralFloor(t *testing.T) {
	layered := 0
	for _, old := range savedJobs(t, "version-10", 13) {
		if old.job.Version != 11 || old.job.Floor.ReadsOn() != job.ReadOnStructure || old.job.Floor.ReadOverMM(true) != 0 {
			t.Fatalf("%s: version %d, read on %s", old.file, old.job.Version, old.job.Floor.ReadsOn())
		}
		again, err := old.job.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(strings.Replace(old.data, `"version": 10`, `"version": 11`, 1), string(again)); diff != "" {
			t.Errorf("%s:\n%s", old.file, diff)
		}
		if old.job.Floor.Existing == nil {
			continue
		}
		layered++
		stood := strings.Replace(old.data, `"existing": [`, `"readOn": "kept", "existing": [`, 1)
		if _, err := job.Parse([]byte(stood)); !strings.Contains(message.OfError(err).String(), `open.unknown-name{name: "readOn"}`) {
			t.Errorf("%s with what it was read on: %v", old.file, err)
		}
		now, err := job.Parse([]byte(strings.Replace(stood, `"version": 10`, `"version": 11`, 1)))
		if err != nil || now.Floor.ReadOverMM(false) != 60 {
			t.Errorf("%s: read %v over the structural floor, %v", old.file, now.Floor.ReadOverMM(false), err)
		}
	}
	if layered != 1 {
		t.Errorf("%d files with layers that were found, want 1", layered)
	}
}

// States are counted from one that never was saved.
func TestStates(t *testing.T) {
	for state, good := range map[int]bool{0: true, 1: true, 1_000_000: true, 1_000_001: false, -1: false} {
		j := job.New()
		j.State = state
		if p := j.Validate(); (len(p) == 0) != good || !good && (len(p) != 1 || p[0].Key != "state") {
			t.Errorf("%d: %v", state, p)
		}
	}
}

// An edition is a year and a month.
func TestEditions(t *testing.T) {
	for text, good := range map[string]bool{"": true, "2026-11": true, "2026-13": false, "2026": false, "1926-11": false,
		"2026-11 ": false, "soon": false} {
		j := job.New()
		j.Edition = text
		if p := j.Validate(); (len(p) == 0) != good || !good && (len(p) != 1 || p[0].Key != "edition") {
			t.Errorf("%q: %v", text, p)
		}
	}
}

// Jobs saved by every released version of the format open for ever, and keep
// being opened once they are saved by this one.
func TestOldFilesOpen(t *testing.T) {
	for _, old := range savedJobs(t, "version-[1-4]", 12) {
		file, j := old.file, old.job
		if j.Version != job.Version || j.Tolerances != job.UsualTolerances() || j.Drain.CapacityHeadMM != job.UsualHeadMM ||
			j.Style.Metal == "" || j.Layers.Wall.Bond == "" {
			t.Errorf("%s opens as version %d: %+v, %+v", file, j.Version, j.Tolerances, j.Style)
		}
		if j.Layers.WallTiledToMM != 2200 || j.Waste.HoleRoomMM != 8 {
			t.Errorf("%s: tiled to %v, %v round the pipe", file, j.Layers.WallTiledToMM, j.Waste.HoleRoomMM)
		}
		for _, d := range j.Room.Doorways {
			if d.HeightMM != 2040 {
				t.Errorf("%s: a doorway %v high", file, d.HeightMM)
			}
		}
		again, err := j.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		back, err := job.Parse(again)
		if diff := cmp.Diff(j, back); err != nil || diff != "" {
			t.Errorf("%s: saved in the new format: %v\n%s", file, err, diff)
		}
	}
}

// What drove the fall and what was known of the exit's level are one value now:
// each pair of version 2 that made sense has its kind, and what made none is
// refused in words.
func TestExitLevelsOfVersion2(t *testing.T) {
	data, err := os.ReadFile("testdata/version-2/1-slab-side-wall.json")
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		drive, level string
		want         job.ExitLevel
		refused      string
	}{
		"free":           {`"gradient"`, ``, job.ExitLevel{}, ""},
		"not lower than": {`"gradient"`, `"invertMM": -40.5,`, job.NotBelow(-40.5), ""},
		"at exactly":     {`"exit"`, `"invertMM": 0,`, job.Exactly(0), ""},
		"exit, no level": {`"exit"`, ``, job.ExitLevel{}, "place.exit-level, what: problem.exit-level-sets-fall"},
		"nothing drives": {`""`, ``, job.ExitLevel{}, `open.pipe-fall-unknown{value: ""}`},
		"unknown":        {`"pump"`, ``, job.ExitLevel{}, `open.pipe-fall-unknown{value: "pump"}`},
		"level not a level": {`"exit"`, `"invertMM": "low",`,
			job.ExitLevel{}, "place.exit, what: problem.wrong-kind{belongs: kind.number, found: kind.words}"},
	} {
		text := strings.Replace(strings.Replace(string(data), `"drive": "gradient"`, `"drive": `+c.drive, 1),
			`"offsetMM": 68,`, `"offsetMM": 68,`+c.level, 1)
		j, err := job.Parse([]byte(text))
		if c.refused != "" {
			if says := message.OfError(err).String(); !strings.Contains(says, c.refused) {
				t.Errorf("%s: it says %s, want one about %q", name, says, c.refused)
			}
			continue
		}
		if err != nil || !j.Waste.Exit.Level.Equal(c.want) {
			t.Errorf("%s: %v, %v; want %v", name, j.Waste.Exit.Level, err, c.want)
		}
	}
}

// A level without a kind that uses it, and a kind without its level, cannot be
// read.
func TestExitLevelReads(t *testing.T) {
	for text, want := range map[string]job.ExitLevel{
		`{"kind":"free"}`: {}, `{"kind":"not-below","invertMM":-3.25}`: job.NotBelow(-3.25), `{"kind":"exactly","invertMM":0}`: job.Exactly(0)} {
		var got job.ExitLevel
		if err := json.Unmarshal([]byte(text), &got); err != nil || !got.Equal(want) {
			t.Errorf("%s reads as %v, %v", text, got, err)
		}
		if back, err := json.Marshal(got); err != nil || string(back) != text {
			t.Errorf("%s is written as %s, %v", text, back, err)
		}
	}
	const among = "{value: %q, choices: [choice.exit-level.free, choice.exit-level.not-below, choice.exit-level.exactly]}"
	for text, want := range map[string]string{
		`null`:                         fmt.Sprintf("problem.unknown-choice"+among, ""),
		`{}`:                           fmt.Sprintf("problem.unknown-choice"+among, ""),
		`{"kind":"low"}`:               fmt.Sprintf("problem.unknown-choice"+among, "low"),
		`5`:                            "problem.wrong-kind{belongs: kind.group, found: kind.number}",
		`{"kind":"free","invertMM":1}`: "problem.exit-level-free",
		`{"kind":"exactly"}`:           "problem.exit-level-missing",
		`{"kind":"not-below"}`:         "problem.exit-level-missing",
		`{"kind":"exactly","invertMM":1,"more":2}`: `reading the exit's level: json: unknown field "more"`,
	} {
		if err := json.Unmarshal([]byte(text), new(job.ExitLevel)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}

// Names and notes of an old file that no longer may be are cleaned when it
// opens, not refused.
func TestLongOldNotesOpen(t *testing.T) {
	data, err := os.ReadFile("testdata/version-2/1-slab-side-wall.json")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), `"name": "`, `"name": "\u202e\u0007`+strings.Repeat("n", 300), 1)
	text = strings.Replace(text, `"notes": "`, `"notes": "first\r\nsecond\u0000`+strings.Repeat("é", 50000), 1)
	j, err := job.Parse([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	if n := utf8.RuneCountInString(j.Name); n != 120 || !strings.HasPrefix(j.Name, "nnn") {
		t.Errorf("a name of %d characters: %q", n, j.Name)
	}
	if n := utf8.RuneCountInString(j.Notes); n != 8000 || !strings.HasPrefix(j.Notes, "first\nsecondé") {
		t.Errorf("notes of %d characters begin %q", n, j.Notes[:20])
	}
}

// A job with a number out of its range fails the schema where every job's geometry
// depends on it, on either side; one whose use depends on the job may be kept as it is.
func TestSchemaHasTheRangesThatAlwaysCount(t *testing.T) {
	whole, err := schema()
	if err != nil {
		t.Fatal(err)
	}
	resolved, err := whole.Resolve(nil)
	if err != nil {
		t.Fatal(err)
	}
	fits := func(j job.Job) bool {
		data, err := j.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		var v any
		if err := json.Unmarshal(data, &v); err != nil {
			t.Fatal(err)
		}
		return resolved.Validate(v) == nil
	}
	for i, p := range job.Parameters() {
		always := parameterRows[i].when == "always"
		if p.Always() != always {
			t.Errorf("%s always counts: %v", p.Key, p.Always())
		}
		for v, want := range map[float64]bool{p.Least: true, p.Greatest: true, p.Least - 0.01: !always, p.Greatest + 0.01: !always} {
			if got := fits(p.With(job.New(), v)); got != want {
				t.Errorf("%s of %v fits: %v", p.Key, v, got)
			}
		}
	}
}

// The schema has the values of the lists that parts have.
func TestSchemaHasTheWordsOfParts(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		old, new string
		fits     bool
	}{
		"as it is":        {"", "", true},
		"joint of a pipe": {`"joint": "` + string(shelf.Pipes[0].Joint) + `"`, `"joint": "glued"`, false},
		"another joint":   {`"joint": "` + string(shelf.Pipes[0].Joint) + `"`, `"joint": "push-fit"`, true},
		"use of a layer":  {`"use": "` + string(shelf.Layers[0].Use) + `"`, `"use": "paint"`, false},
		"mark":            {`"mark": "` + string(shelf.Pipes[0].Source.Mark) + `"`, `"mark": "trust me"`, false},
		"sheet":           {`"mark": "` + string(shelf.Pipes[0].Source.Mark) + `"`, `"sheet": "pump", "mark": "read"`, false},
	} {
		j := job.New()
		j.UsePipe(shelf.Pipes[0], 40)
		j.UseLayer(job.OnShower, shelf.Layers[0])
		data, err := j.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Replace(string(data), c.old, c.new, 1)
		if text == string(data) && c.old != c.new {
			t.Fatalf("%s: nothing was changed", name)
		}
		if err := fitsSchema([]byte(text)); (err == nil) != c.fits {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The values of every list are there once, each with an id for its word, and its
// usual value is one of them.
func TestEnumsAreWhole(t *testing.T) {
	check(t, job.EdgeKinds())
	check(t, job.WallKinds())
	check(t, job.LeafSwings())
	check(t, job.FloorKinds())
	check(t, job.SupportKinds())
	check(t, job.HeightModes())
	check(t, job.FallKinds())
	check(t, job.ExitKinds())
	check(t, job.ExitLevelKinds())
	check(t, job.FittingKinds())
	check(t, job.Bonds())
	check(t, job.Surfaces())
	check(t, job.Sheens())
	check(t, job.MetalKinds())
	check(t, job.CoverKinds())
	check(t, job.UnitSystems())
}

func check[T ~string](t *testing.T, e job.Enum[T]) {
	t.Helper()
	seen := map[string]bool{}
	for _, c := range e.Choices {
		if c.Value == "" || seen[string(c.Value)] || !strings.HasPrefix(string(c.Word()), "choice.") ||
			!strings.HasSuffix(string(c.Word()), "."+string(c.Value)) {
			t.Errorf("%T: %+v is empty or there twice", e, c)
		}
		seen[string(c.Value)] = true
	}
	if !e.Has(e.Usual) || e.Has("") || e.OrUsual("") != e.Usual || e.OrUsual(e.Choices[0].Value) != e.Choices[0].Value {
		t.Errorf("%T: its usual value %q", e, e.Usual)
	}
}

// The schema in the assets is the one the types give, and every demo job
// fits it.
func TestSchema(t *testing.T) {
	schema, err := schemaText()
	if err != nil {
		t.Fatal(err)
	}
	kept, err := os.ReadFile("../../assets/schema/job.schema.json")
	if os.Getenv("UPDATE") != "" {
		if err := os.WriteFile("../../assets/schema/job.schema.json", schema, 0o644); err != nil {
			t.Fatal(err)
		}
	} else if err != nil || string(kept) != string(schema) {
		t.Fatalf("assets/schema/job.schema.json is out of date (%v); run UPDATE=1 go test ./geometry/job", err)
	}
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range demos {
		data, err := d.Job.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		if err := fitsSchema(data); err != nil {
			t.Errorf("%s: %v", d.File, err)
		}
	}
	if fitsSchema([]byte(`{"version": "one"}`)) == nil {
		t.Error("the schema takes a job without a number for its version")
	}
}

func FuzzParse(f *testing.F) {
	good, err := job.New().Marshal()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(good)
	f.Add([]byte(`{"version":1}`))
	f.Add([]byte(`{"version":1,"room":{"outline":[[0,0],[1e308,0],[0,1]]}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		j, err := job.Parse(data)
		if err != nil {
			return
		}
		// What was taken can be saved and taken again.
		again, err := j.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		if _, err := job.Parse(again); err != nil {
			t.Fatalf("a job that was read cannot be read again: %v", err)
		}
	})
}

// What a shared waste carries. A dwelling, K 0.5, units of system II of EN 12056-2:2000,
// Table 2: shower 0.4, basin 0.3, WC of 6 l 1.8 make 2.5, and 0.5·√2.5 = 0.7906 l/s is less
// than the WC alone: 1.8 is carried. With basin and bath (1.3) beside a shower of 0.2 it is
// 0.5·√(0.2 + 0.3 + 1.3) = 0.6708; beside one of 1 the shower alone.
func TestWhatTheWasteCarries(t *testing.T) {
	for name, c := range map[string]struct {
		water job.Water
		run   float64
	}{
		"alone":            {job.Water{ShowerFlowsLPS: []float64{0.2, 0.1}}, 0.3},
		"with a WC":        {job.Water{ShowerFlowsLPS: []float64{0.4}, OtherDU: 2.1, LargestDU: 1.8}, 1.8},
		"with a bath":      {job.Water{ShowerFlowsLPS: []float64{0.2}, OtherDU: 1.6, LargestDU: 1.3}, 1.3},
		"no largest given": {job.Water{ShowerFlowsLPS: []float64{0.2}, OtherDU: 1.6}, 0.6708},
		"a large shower":   {job.Water{ShowerFlowsLPS: []float64{1}, OtherDU: 1.6}, 1},
	} {
		got := c.water.RunLPS()
		if math.Abs(got-c.run) > 5e-5 {
			t.Errorf("%s: %v l/s, want %v", name, got, c.run)
		}
		// As much of the shower as a waste that just carries it has room for: all there is.
		room := c.water.ShowerLPS(got)
		if c.water.OtherDU == 0 && room != got ||
			c.water.OtherDU > 0 && c.water.LargestDU < got && math.Abs(min(room, got)-min(4*got*got-c.water.OtherDU, got)) > 1e-9 {
			t.Errorf("%s: room for %v l/s of the shower in %v", name, room, got)
		}
	}
	if room := (job.Water{OtherDU: 2, LargestDU: 1.8}).ShowerLPS(1.7); room != 0 {
		t.Errorf("a waste that the WC fills has room for %v l/s", room)
	}
}
