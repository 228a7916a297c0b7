package job_test

import (
	"encoding/json"
	"math"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/unit"
)

// start is the job that a new one begins with, typed a second time on purpose.
// Common practice, no source.
const start = `{
"version": 11, "name": "New shower", "region": "UK", "accessible": false, "units": "metric",
"room": {
	"outline": [[0, 0], [2400, 0], [2400, 1900], [0, 1900]],
	"walls": [
		{"kind": "stud", "thicknessMM": 100, "studSpacingMM": 400, "firstStudMM": 200, "studWidthMM": 47},
		{"kind": "stud", "thicknessMM": 100, "studSpacingMM": 400, "firstStudMM": 200, "studWidthMM": 47},
		{"kind": "masonry", "thicknessMM": 215},
		{"kind": "masonry", "thicknessMM": 215, "outsideGroundMM": -150}],
	"doorways": [{"wall": 0, "offsetMM": 1500, "widthMM": 760, "heightMM": 2040, "neighbourFFLMM": 20,
		"leaf": "out", "hingeAtStart": false, "leafGapMM": 8}],
	"heightMM": 2400, "edge": "step", "rampRunMM": 600},
"floor": {"kind": "slab", "slabThicknessMM": 150, "deck": {"thicknessMM": 22},
	"joists": {"depthMM": 195, "widthMM": 47, "spacingMM": 400, "firstOffsetMM": 200, 
		"timber": {"id": "c24", "source": {"document": "EN 338", "edition": "2016", "clause": "Table 1", "mark": "memory"},
			"bendingNMM2": 24, "shearNMM2": 4, "modulusNMM2": 11000, "densityKGM3": 420}}},
"shower": {"wall": 2, "offsetMM": 1000, "widthMM": 1400, "depthMM": 900,
	"screens": [{"kind": "pane", "side": "right", "offsetMM": 13, "widthMM": 842, "heightMM": 2000, "thicknessMM": 8, "gapMM": 4}]},
"base": {"support": "on-floor", "height": "bare", "heightMM": 100, "minThicknessMM": 20,
	"adhesiveMM": 3, "betweenLeastMM": 2, "betweenGreatestMM": 4, "sawMarginMM": 10, "boardLengthMM": 1500},
"former": {"fall": "back", "ends": "level", "slope": 0.02, "thicknessAtDrainMM": 20, "bedMM": 3},
"drain": {"lengthMM": 800, "widthMM": 70, "wallClearanceMM": 13, "offsetMM": 0, "channelDepthMM": 25, "trapDepthMM": 95, "trapSizeMM": 110,
	"trapOffsetMM": 0, "weirDepthMM": 32, "sealMM": 50, "passageMM": 10, "outletNominalMM": 50,
	"outletJointOutsideMM": 57, "outletInvertDepthMM": 75, "outletTurnDeg": 180, "capacityLPS": 0.6, "capacityHeadMM": 20,
	"coverLeastMM": 8, "coverGreatestMM": 25, "leastFormerMM": 15},
"waste": {"nominalMM": 50, "outsideDiameterMM": 50, "boreMM": 46, "socketOutsideMM": 57, "insertionMM": 20,
	"holeRoomMM": 8, "gradient": 0.025,
	"exit": {"kind": "wall", "wall": 3, "offsetMM": 68, "at": [0, 0], "level": {"kind": "free"}},
	"bend45FaceMM": 25, "bend90FaceMM": 45},
"layers": {
	"shower": {"tanking": {"thicknessMM": 1, "toleranceMM": 0.3}, "bed": {"thicknessMM": 3, "toleranceMM": 1},
		"tile": {"thicknessMM": 9, "toleranceMM": 0.5},
		"tileLengthMM": 200, "tileWidthMM": 200, "jointMM": 3, "colour": "#5d7673", "bond": "stack", "surface": "plain", "sheen": "satin"},
	"room": {"tanking": {"thicknessMM": 1, "toleranceMM": 0.3}, "bed": {"thicknessMM": 3, "toleranceMM": 1},
		"tile": {"thicknessMM": 9, "toleranceMM": 0.5},
		"tileLengthMM": 600, "tileWidthMM": 600, "jointMM": 3, "colour": "#b7a996", "bond": "stack", "surface": "plain", "sheen": "satin"},
	"wall": {"tanking": {"thicknessMM": 1, "toleranceMM": 0.3}, "bed": {"thicknessMM": 3, "toleranceMM": 1},
		"tile": {"thicknessMM": 9, "toleranceMM": 0.5},
		"tileLengthMM": 600, "tileWidthMM": 300, "jointMM": 2, "colour": "#e4ded4", "bond": "stack", "surface": "plain", "sheen": "satin"},
	"wallTiledToMM": 2200},
"water": {"showerFlowsLPS": [0.2]},
"tolerances": {"floorMM": 3, "baseMM": 1, "bedMM": 1, "formerMM": 1, "fallMM": 2, "outletMM": 1,
	"trapMM": 1, "pipeMM": 3, "exitMM": 2, "doorwayMM": 1, "groundMM": 20},
"style": {"metal": "steel", "cover": "slotted"}
}`

func TestNewIsAsTyped(t *testing.T) {
	var want job.Job
	if err := json.Unmarshal([]byte(start), &want); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, job.New()); diff != "" {
		t.Errorf("the starting job is not as typed:\n%s", diff)
	}
}

// Every length of the room and the shower that begins in inches is a whole number of
// sixteenths, the falls are those told in inches to the foot, and the job can be made.
func TestStartInInches(t *testing.T) {
	j := job.NewInInches()
	if wrong := j.Validate(); len(wrong) > 0 || j.Units != unit.Imperial {
		t.Errorf("%v, %v", j.Units, wrong)
	}
	tried := 0
	for p := range job.EachParameter {
		of := p.Station == job.StationRoom || p.Station == job.StationShower || p.Station == job.StationFloor
		if !p.Kind.IsLength() || !of || !p.Uses(j) {
			continue
		}
		tried++
		sixteenths := p.Get(j) * 16 / 25.4
		if math.Abs(sixteenths-math.Round(sixteenths)) > 1e-9 {
			t.Errorf("%s: %v mm", p.Key, p.Get(j))
		}
	}
	// 5 ft by 3 ft; 1/4 in to the foot; 2-1/2 gallons a minute.
	if tried < 5 || j.Shower.WidthMM != 1524 || j.Shower.DepthMM != 914.4 || j.Former.Slope*48 != 1 ||
		math.Abs(j.Water.TotalLPS()-0.15773) > 1e-5 {
		t.Errorf("of %d: %+v, %v, %v", tried, j.Shower, j.Former.Slope, j.Water)
	}
	// A change of the usual job is no change of this one's lists.
	if job.New().Room.Walls[0].ThicknessMM != 100 {
		t.Error("the job in millimetres has walls in inches")
	}
}

// Common practice, no source; typed a second time on purpose.
func TestUsualValuesAreAsTyped(t *testing.T) {
	if job.UsualHeadMM != 20 || job.UsualReadingMM != 1 || job.ReducerLengthMM != 60 {
		t.Errorf("head %v, reading %v, reducer %v", job.UsualHeadMM, job.UsualReadingMM, job.ReducerLengthMM)
	}
	want := job.Tolerances{FloorMM: 3, BaseMM: 1, BedMM: 1, FormerMM: 1, FallMM: 2,
		OutletMM: 1, TrapMM: 1, PipeMM: 3, ExitMM: 2, DoorwayMM: 1, GroundMM: 20}
	if got := job.UsualTolerances(); got != want {
		t.Errorf("tolerances %+v", got)
	}
	pipe := part.Pipe{NominalMM: 50, OutsideDiameterMM: 50, BoreMM: 46, SocketOutsideMM: 57, InsertionMM: 20,
		Bend45FaceMM: 25, Bend90FaceMM: 45}
	reducer := job.Fitting{Kind: job.FittingReducer, AtMM: 70, LengthMM: 60, Pipe: pipe}
	if got := usualReducer(70); got != reducer {
		t.Errorf("a reducer is %+v", got)
	}
	// tan 3° = 0.0524078 by table.
	got := job.UsualFallingPiece(70)
	slope := got.Slope
	got.Slope = 0
	if want := (job.Fitting{Kind: job.FittingFallingPiece, AtMM: 70, LengthMM: 120}); got != want || math.Abs(slope-0.0524078) > 1e-7 {
		t.Errorf("a falling piece is %+v, with a slope of %v", got, slope)
	}
}

func TestSmallAnswersByHand(t *testing.T) {
	if got := (job.Water{ShowerFlowsLPS: []float64{0.25, 0.5, 0.125}}).TotalLPS(); got != 0.875 {
		t.Errorf("a quarter, a half and an eighth are %v", got)
	}
	layer := func(mm float64) job.Layer { return job.Layer{ThicknessMM: mm} }
	if got := (job.Finish{Tanking: layer(1.5), Bed: layer(4), Tile: layer(10)}).ThicknessMM(); got != 15.5 {
		t.Errorf("layers of 1.5, 4 and 10 are %v", got)
	}
	if new(job.Floor).KeepsFinish() || !(&job.Floor{Existing: []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 0.1}}}).KeepsFinish() {
		t.Error("a finish is kept where there is none, or is not kept")
	}
	for angle, want := range map[float64]float64{
		0: 0, 90: 90, 359.5: 359.5, 360: 0, 361: 1, 720: 0, -0.5: 359.5, -90: 270, -360: 0, -450: 270,
	} {
		if got := job.AngleDeg(angle); got != want {
			t.Errorf("%v° is %v°, want %v°", angle, got, want)
		}
	}
	for kind, want := range map[job.FallKind]bool{
		job.FallBack: true, job.FallLeft: true, job.FallRight: true, job.FallFront: true, job.FallMid: true,
		job.FallPoint: false, job.FallRoom: false,
	} {
		if got := kind.Linear(); got != want {
			t.Errorf("%s is to a linear drain: %v", kind, got)
		}
	}
}

// Each level measured as built is kept in a field of its own, of the name it
// has in a file, and any of them counts as measured.
func TestBuiltLevels(t *testing.T) {
	if new(job.AsBuilt).Any() {
		t.Error("something is measured before anything is")
	}
	fields := []string{"baseTopMM", "outletInvertMM", "exitInvertMM", "formerAtDrainMM", "formerAtEdgeMM", "tileAtDrainMM"}
	for i, field := range fields {
		var a job.AsBuilt
		levels := a.Levels()
		mm := 12.5
		*levels[i].MM = &mm
		data, err := json.Marshal(a)
		if err != nil || string(data) != `{"`+field+`":12.5}` || levels[i].Field != field || len(levels) != len(fields) {
			t.Errorf("level %d, %s, is saved as %s, %v", i, levels[i].Field, data, err)
		}
		if !a.Any() {
			t.Errorf("%s does not count as measured", field)
		}
	}
}

func TestExitLevels(t *testing.T) {
	for name, c := range map[string]struct {
		level           job.ExitLevel
		kind            job.ExitLevelKind
		mm              float64
		stated, exactly bool
		elsewhere       job.ExitLevel
	}{
		"free":      {job.ExitLevel{}, job.ExitFree, 0, false, false, job.ExitLevel{}},
		"not below": {job.NotBelow(-7), job.ExitNotBelow, -7, true, false, job.NotBelow(3)},
		"exactly":   {job.Exactly(-7), job.ExitExactly, -7, true, true, job.Exactly(3)},
	} {
		mm, stated := c.level.InvertMM()
		_, exactly := c.level.ExactlyMM()
		if c.level.Kind() != c.kind || mm != c.mm || stated != c.stated || exactly != c.exactly || !c.level.At(3).Equal(c.elsewhere) {
			t.Errorf("%s: %v at %v (%v, exactly %v), elsewhere %v", name, c.level.Kind(), mm, stated, exactly, c.level.At(3))
		}
	}
	if job.Exactly(1).Equal(job.NotBelow(1)) || job.Exactly(1).Equal(job.Exactly(2)) {
		t.Error("levels that differ are equal")
	}
}

// filled sets everything that may be absent or empty within a value.
func filled(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		for i := range v.Len() {
			filled(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				filled(v.Field(i))
			}
		}
	}
}

// shares finds memory that two values of one type have in common.
func shares(a, b reflect.Value, path string) []string {
	var found []string
	switch a.Kind() {
	case reflect.Pointer:
		if a.Pointer() == b.Pointer() {
			found = append(found, path)
		}
	case reflect.Slice:
		if a.Pointer() == b.Pointer() {
			found = append(found, path)
		}
		for i := range a.Len() {
			found = append(found, shares(a.Index(i), b.Index(i), path)...)
		}
	case reflect.Struct:
		for i := range a.NumField() {
			found = append(found, shares(a.Field(i), b.Field(i), path+"."+a.Type().Field(i).Name)...)
		}
	}
	return found
}

// A clone of a job with everything in it is the same and shares nothing: also
// what is added to a job later. Copies of parts, which nothing changes, it may share.
func TestCloneSharesNoMemory(t *testing.T) {
	var j job.Job
	filled(reflect.ValueOf(&j).Elem())
	c := j.Clone()
	if diff := cmp.Diff(j, c); diff != "" {
		t.Errorf("the clone differs:\n%s", diff)
	}
	c.Parts, c.Floor.Joists.Timber = job.Parts{}, nil
	if found := shares(reflect.ValueOf(j), reflect.ValueOf(c), "job"); len(found) > 0 {
		t.Errorf("the clone shares %v", found)
	}
	if again := shares(reflect.ValueOf(j), reflect.ValueOf(j), "job"); len(again) < 19 {
		t.Errorf("of itself a job shares only %v", again)
	}
}

// usualReducer is a reducer to the usual pipe of 50 mm.
func usualReducer(atMM float64) job.Fitting {
	j := job.New()
	f, _ := j.ReducerAt(atMM)
	return f
}
