package job

import (
	"math"
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/survey"
	"underfall/geometry/unit"
)

// Laser is what was read down from the line of a laser. Of what was read on the structural floor the levels are worked
// out: they stand among SpotLevels, after those that are stated, and in no file.
type Laser struct {
	SetUps   []SetUp   `json:"setUps,omitempty"`
	Readings []Reading `json:"readings,omitempty"`
}

// SetUp is one set-up of the laser. How high its line lies follows from a known point that was read from it, or from
// points that were read from another set-up as well; where there is no known point, from the first reading.
type SetUp struct {
	// LevelMM is the level of the known point; absent where none was read.
	LevelMM *float64 `json:"levelMM,omitempty"`
	// DownMM is what was read down to it.
	DownMM float64 `json:"downMM,omitempty"`
}

// Reading is one reading down from the line to a point of the structural floor.
type Reading struct {
	SetUp       int        `json:"setUp"` // its number, counted from 1
	At          plan.Point `json:"at"`
	DownMM      float64    `json:"downMM"`
	ToleranceMM float64    `json:"toleranceMM,omitempty"` // 0 for the usual
}

// Bounds of set-ups and readings.
const (
	mostSetUps   = 20
	mostLaserMM  = 5000
	mostKnownMM  = 5000
	usualLineMM  = 1000 // over the datum; a metre, as lines are struck. Common practice, no source
	samePointMM  = 1    // how far apart two readings of one point may be placed
	askedAboutMM = 2    // by how much two readings of one point differ before it is asked which is right
)

// The keys of what was read down from a laser.
const (
	SetUpsKey   = "laser.setUps"
	ReadingsKey = "laser.readings"
	// SpotLevelsKey is the key of levels of the structural floor as stated.
	SpotLevelsKey = "spotLevels"
)

// TakenLineMM is how high the line is taken to lie over the point of the first reading; false where a known point gives it.
func (l *Laser) TakenLineMM() (mm float64, ok bool) {
	known := slices.ContainsFunc(l.SetUps, func(s SetUp) bool { return s.LevelMM != nil })
	if known || len(l.Readings) == 0 || !l.sound() {
		return 0, false
	}
	return l.Readings[0].DownMM, true
}

// KeepLine has a line that the first reading gives stay where it is once that reading is another or goes: its point has been a known one.
func (l *Laser) KeepLine() {
	if mm, ok := l.TakenLineMM(); ok {
		l.SetUps[l.Readings[0].SetUp-1] = SetUp{LevelMM: new(float64), DownMM: mm}
	}
}

// levelled are the levels of all lines and of all points that were read; of is which point each reading is of. Where no known point was
// read, the first point that was lies at the datum: readings tell how the floor lies, and not that all of it lies lower.
func (l *Laser) levelled() (levels survey.Levelled, of []int) {
	var places []plan.Point
	for _, r := range l.Readings {
		at := slices.IndexFunc(places, func(p plan.Point) bool { return p.Sub(r.At).Len() <= samePointMM })
		if at < 0 {
			at = len(places)
			places = append(places, r.At)
		}
		of = append(of, at)
	}
	var known []survey.Known
	var readings []survey.Down
	points := len(places)
	for i, s := range l.SetUps {
		if s.LevelMM != nil {
			known = append(known, survey.Known{Point: points, LevelMM: *s.LevelMM, Tolerance: UsualReadingMM})
			readings = append(readings, survey.Down{SetUp: i, Point: points, MM: s.DownMM, Tolerance: UsualReadingMM})
			points++
		}
	}
	if len(known) == 0 && len(l.Readings) > 0 {
		known = append(known, survey.Known{Point: of[0], Tolerance: UsualReadingMM})
	}
	for i, r := range l.Readings {
		readings = append(readings, survey.Down{SetUp: r.SetUp - 1, Point: of[i], MM: r.DownMM, Tolerance: orElse(r.ToleranceMM, UsualReadingMM)})
	}
	return survey.Level(len(l.SetUps), points, known, readings), of
}

// sound tells whether every reading is of a set-up.
func (l *Laser) sound() bool {
	return !slices.ContainsFunc(l.Readings, func(r Reading) bool { return r.SetUp < 1 || r.SetUp > len(l.SetUps) })
}

// LineMM is the level of the line of a set-up, by its index; false where nothing ties it to a known point.
func (l *Laser) LineMM(setUp int) (mm float64, ok bool) {
	if !l.sound() || setUp < 0 || setUp >= len(l.SetUps) {
		return 0, false
	}
	levels, _ := l.levelled()
	mm = levels.Lines[setUp]
	return mm, mm == mm
}

// ReadDownMM is what a staff reads down from the line, as it was last set up, to a level; false where there is no line.
func (l *Laser) ReadDownMM(levelMM float64) (mm float64, ok bool) {
	for i := len(l.SetUps) - 1; i >= 0; i-- {
		if line, ok := l.LineMM(i); ok {
			return line - levelMM, true
		}
	}
	return 0, false
}

// LevelOfMM is the level that a staff on it reads so much down from the line, as it was last set up; false where there is
// no line.
func (l *Laser) LevelOfMM(downMM float64) (mm float64, ok bool) {
	line, ok := l.ReadDownMM(0)
	return line - downMM, ok
}

// Doubt are two readings of one point that differ by more than reading explains: both are kept until somebody says which
// is right.
type Doubt struct {
	First, Second int // of the readings, by their indices
	ByMM          float64
}

// Message asks which is right.
func (d Doubt) Message() message.Message {
	return message.Of("laser.doubt", message.No("first", d.First+1), message.No("second", d.Second+1), message.MM("by", d.ByMM))
}

// Doubts are all pairs of readings, each of a point's with the first of that point, that differ by more than reading
// explains.
func (l *Laser) Doubts() (out []Doubt) {
	if !l.sound() {
		return nil
	}
	levels, of := l.levelled()
	level := func(i int) float64 { return levels.Lines[l.Readings[i].SetUp-1] - l.Readings[i].DownMM }
	for i := range l.Readings {
		first := slices.Index(of, of[i])
		if by := math.Abs(level(i) - level(first)); by > askedAboutMM+plan.HairMM {
			out = append(out, Doubt{first, i, by})
		}
	}
	return out
}

// spotLevels are the levels that the readings give, of those that are tied to a known point.
func (l *Laser) spotLevels() (out []SpotLevel) {
	if len(l.Readings) == 0 || !l.sound() {
		return nil
	}
	levels, _ := l.levelled()
	for i, r := range l.Readings {
		if line := levels.Lines[r.SetUp-1]; line == line {
			out = append(out, SpotLevel{At: r.At, LevelMM: line - r.DownMM, ToleranceMM: orElse(r.ToleranceMM, UsualReadingMM), Reading: i + 1})
		}
	}
	return out
}

// StatedLevels are the spot levels that are stated, not worked out from readings.
func (j *Job) StatedLevels() []SpotLevel {
	at := slices.IndexFunc(j.SpotLevels, func(s SpotLevel) bool { return s.Reading > 0 })
	if at < 0 {
		return j.SpotLevels
	}
	return j.SpotLevels[:at:at]
}

// WorkOut has everything that is worked out from what was measured be what that gives: the corners of a room that was
// taped, levels that were read down from a laser.
func (j *Job) WorkOut() {
	j.Room.WorkOut()
	j.WorkOutLevels()
}

// WorkOutLevels has the spot levels be those that are stated, and those that the readings give.
func (j *Job) WorkOutLevels() {
	stated := slices.DeleteFunc(slices.Clone(j.SpotLevels), func(s SpotLevel) bool { return s.Reading > 0 })
	if j.SpotLevels = append(stated, j.Laser.spotLevels()...); len(j.SpotLevels) == 0 {
		j.SpotLevels = nil
	}
}

// setUpList is the list of the laser's set-ups.
func setUpList() List {
	known := func(s *SetUp) bool { return s.LevelMM != nil }
	l := listed(SetUpsKey, mostSetUps, func(j *Job) *[]SetUp { return &j.Laser.SetUps }, usualSetUp,
		maybe("levelMM", unit.Length, -mostKnownMM, mostKnownMM, 1, func(s *SetUp) **float64 { return &s.LevelMM }),
		where(known, length("downMM", -mostLaserMM, mostLaserMM, 1, func(s *SetUp) *float64 { return &s.DownMM })))
	remove := l.remove
	l.remove = func(j *Job, i int) {
		remove(j, i)
		j.Laser.Readings = slices.DeleteFunc(j.Laser.Readings, func(r Reading) bool { return r.SetUp == i+1 })
		for k := range j.Laser.Readings {
			if r := &j.Laser.Readings[k]; r.SetUp > i+1 {
				r.SetUp--
			}
		}
		if len(j.Laser.Readings) == 0 {
			j.Laser.Readings = nil
		}
		j.WorkOutLevels()
	}
	return l
}

// usualSetUp reads the datum; one after the first is tied by points that are read again.
func usualSetUp(j *Job) SetUp {
	if len(j.Laser.SetUps) > 0 {
		return SetUp{}
	}
	datum := 0.0
	return SetUp{LevelMM: &datum, DownMM: usualLineMM}
}

// firstSetUp is one that readings begin with: from no known point, or from the level that is stated first.
func firstSetUp(j *Job) SetUp {
	if stated := j.StatedLevels(); len(stated) > 0 {
		level := stated[0].LevelMM
		return SetUp{LevelMM: &level, DownMM: usualLineMM}
	}
	return SetUp{}
}

// readingList is the list of what was read.
func readingList() List {
	l := listed(ReadingsKey, mostItems, func(j *Job) *[]Reading { return &j.Laser.Readings }, usualReading,
		placeX(func(r *Reading) *plan.Point { return &r.At }),
		placeY(func(r *Reading) *plan.Point { return &r.At }),
		length("downMM", -mostLaserMM, mostLaserMM, 1, func(r *Reading) *float64 { return &r.DownMM }),
		lessUsed(whole("setUp", 1, mostSetUps, func(r *Reading) *int { return &r.SetUp })),
		lessUsed(length("toleranceMM", 0, mostOffMM, 0.5, func(r *Reading) *float64 { return &r.ToleranceMM })))
	l.said = func(j *Job) (out []message.Message) {
		for _, d := range j.Laser.Doubts() {
			out = append(out, d.Message())
		}
		return out
	}
	add, remove := l.add, l.remove
	l.add = func(j *Job) {
		if len(j.Laser.SetUps) == 0 {
			j.Laser.SetUps = append(j.Laser.SetUps, firstSetUp(j))
		}
		add(j)
		j.WorkOutLevels()
	}
	l.remove = func(j *Job, i int) {
		if i == 0 && len(j.Laser.Readings) > 1 {
			j.Laser.KeepLine()
		}
		remove(j, i)
		j.WorkOutLevels()
	}
	return l
}

// usualReading is where a level is wanted next, as high as the one nearest to it, from the last set-up; from one that nothing
// ties yet, of the first point that was read, which ties it.
func usualReading(j *Job) Reading {
	n := len(j.Laser.SetUps)
	line, ok := j.Laser.LineMM(n - 1)
	if !ok && len(j.Laser.Readings) > 0 {
		r := j.Laser.Readings[0]
		r.SetUp = n
		return r
	}
	next := nextLevel(j)
	if !ok {
		line = usualLineMM
	}
	return Reading{SetUp: n, At: plan.Point{next[0], next[1]}, DownMM: line - next[2]}
}

// laser checks what was read down from a laser: that each reading is of a set-up, that its line is known, and that the
// levels are what that gives.
func (v *validator) laser(j *Job) {
	l := &j.Laser
	sound := len(v.problems) == 0
	for i, r := range l.Readings {
		if r.SetUp > len(l.SetUps) {
			v.add(Nth(ReadingsKey, i)+".setUp", "problem.no-set-up", message.No("setUps", len(l.SetUps)))
			sound = false
		}
		sound = v.point(Nth(ReadingsKey, i)+".at", r.At) && sound
	}
	if !sound {
		return
	}
	want := l.spotLevels()
	if len(want) < len(l.Readings) {
		for i := range l.SetUps {
			_, tied := l.LineMM(i)
			if used := slices.ContainsFunc(l.Readings, func(r Reading) bool { return r.SetUp == i+1 }); used && !tied {
				v.add(Nth(SetUpsKey, i), "problem.set-up-untied")
			}
		}
		return
	}
	for _, s := range want {
		if math.Abs(s.LevelMM) > mostReadingMM {
			v.add(Nth(ReadingsKey, s.Reading-1)+".downMM", "problem.reading-far", message.MM("level", s.LevelMM), message.MM("most", mostReadingMM))
		}
	}
	if !slices.Equal(want, j.SpotLevels[len(j.StatedLevels()):]) {
		v.add(SpotLevelsKey, "problem.levels-are-read")
	}
}
