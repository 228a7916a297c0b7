package section

import (
	"slices"

	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
)

// Reading is a place of the structural floor whose level was read, with what was read there.
type Reading struct {
	At   plan.Point
	Text message.Message
	Key  string // its path in the job's file
	// Doubted tells that another reading of the place says something else.
	Doubted bool
	// Quiet has its mark alone be there, where nothing is typed on it.
	Quiet bool
}

// Read shows where the structural floor was read, and what: what a staff reads down from the laser, or the level that is
// stated.
func (d *Drawing) Read(r geometry.Result) {
	j := &r.Settled
	doubted := map[int]bool{}
	for _, doubt := range j.Laser.Doubts() {
		doubted[doubt.First], doubted[doubt.Second] = true, true
	}
	for i, s := range j.StatedLevels() {
		d.Readings = append(d.Readings, Reading{At: s.At, Text: message.Of("dimension.level", message.At("level", s.LevelMM)),
			Key: job.Nth(job.SpotLevelsKey, i)})
	}
	for i, l := range j.Laser.Readings {
		d.Readings = append(d.Readings, Reading{At: l.At, Text: length(l.DownMM),
			Key: job.Nth(job.ReadingsKey, i) + ".downMM", Doubted: doubted[i]})
	}
}

// MarkRead shows where the structural floor was read, by quiet marks without what was read.
func (d *Drawing) MarkRead(r geometry.Result) {
	before := len(d.Readings)
	d.Read(r)
	for i := range d.Readings[before:] {
		d.Readings[before+i].Quiet = true
	}
}

// Datum marks where heights are struck from.
func (d *Drawing) Datum(r geometry.Result) {
	if at, levelMM, ok := r.DatumAt(); ok {
		d.Marks = append(d.Marks, Mark{At: at, Of: MarkDatum, Said: r.DatumOn(), LevelMM: levelMM})
	}
}

// ReadingPoints is half of how wide the mark of a reading is, in points.
const ReadingPoints = 5

// giveWay leaves out quiet marks that a text covers: what were still seen of them would look like a part of it.
func (l *letterer) giveWay() {
	wide, high := 2*ReadingPoints*l.Scale, 1.6*ReadingPoints*l.Scale
	l.out.ReadQuiet = slices.DeleteFunc(l.out.ReadQuiet, func(at placing.Point) bool {
		mark := placing.Around(placing.Point{at[0], at[1] - high/2}, wide, high)
		return slices.ContainsFunc(l.out.Texts, func(t Text) bool { return t.Box.Overlaps(mark) })
	})
}

// readings asks for room for what was read: over its mark where there is room.
func (l *letterer) readings(d *Seen) {
	size := TextPoints * l.Scale
	high := 1.6 * ReadingPoints * l.Scale
	for i := range d.Readings {
		o := &d.Readings[i]
		at := d.To(o.At)
		mark := placing.Point{at[0], at[1] - high/2}
		if !placing.Around(mark, 2*ReadingPoints*l.Scale, high).Within(l.scene.Picture) {
			continue
		}
		if o.Quiet {
			l.out.ReadQuiet = append(l.out.ReadQuiet, at)
			continue
		}
		l.out.Read = append(l.out.Read, at)
		l.scene.Handles = append(l.scene.Handles, placing.Around(mark, 2*ReadingPoints*l.Scale, high))
		width := l.Measure(o.Text, size)
		label := placing.Label{LeaveOut: mustCost}
		var texts []Text
		up, aside := high+0.75*size, width/2+(ReadingPoints+gapPoints)*l.Scale
		for k, by := range [...]placing.Point{{0, -up}, {0, 0.8 * size}, {aside, -high / 2}, {-aside, -high / 2}, {aside, -up}, {-aside, -up}, {aside, size}, {-aside, size}} {
			t := l.text(o.Text, placing.Point{at[0] + by[0], at[1] + by[1]}, width, size)
			if t.Key = o.Key; o.Doubted {
				t.Look = LookTold
			}
			label.Candidates, texts = append(label.Candidates, placing.Candidate{Boxes: []placing.Box{t.Box}, Cost: 3 * float64(k)}), append(texts, t)
		}
		l.add(label, func(k int, out *Lettering) { out.Texts = append(out.Texts, texts[k]) })
	}
}
