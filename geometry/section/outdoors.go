package section

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/measure"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// Around walls with ground outside: how far the ground is drawn from the wall, and what is
// shown below a level that is named.
const (
	groundMM     = 140
	underLevelMM = 40
)

// outdoors draws, at the walls that the cut goes through, the ground outside and the damp-proof
// course where the job states them, and has those beside the shower looked at first.
func (d *Drawing) outdoors(r geometry.Result) {
	shower := d.along(r.Layout.FallArea)
	for i := range r.Layout.Walls {
		w, stated := &r.Layout.Walls[i], &r.Settled.Room.Walls[i]
		for _, iv := range d.along(w.Footprint()) {
			middle := (iv.From + iv.To) / 2
			near := len(shower) == 0 || math.Abs(iv.To-shower[0].From) < 1 || math.Abs(iv.From-shower[len(shower)-1].To) < 1
			if course := stated.DampCourseMM; course != nil && d.column(middle).at(*course) != "" {
				d.Lines = append(d.Lines, Line{[]plan.Point{{iv.From, *course}, {iv.To, *course}}, Heavy, false, "damp-course"})
				d.outdoorMark(Mark{At: plan.Point{middle, *course}, Of: MarkDampCourse, LevelMM: *course}, iv, near)
			}
			d.weep(r.Layout.Room, iv)
			ground := stated.OutsideGroundMM
			if ground == nil || *ground < math.Min(d.Low.Y(), r.Heights.FloorHighMM-belowFloorMM) || *ground > d.High.Y() {
				continue
			}
			if foot := d.Low.Y(); *ground < foot {
				// The wall goes on down into the ground.
				for _, x := range [2]float64{iv.From, iv.To} {
					d.Lines = append(d.Lines, Line{[]plan.Point{{x, foot}, {x, *ground - underLevelMM}}, Thin, true, "wall-on"})
				}
				d.Low[1] = *ground - underLevelMM
			}
			// From the face that no room is at.
			from, to := iv.To, iv.To+groundMM
			if r.Layout.Room.Contains(d.planAt(iv.To+1), 0) {
				from, to = iv.From-groundMM, iv.From
			}
			d.Lines = append(d.Lines, Line{[]plan.Point{{from, *ground}, {to, *ground}}, Heavy, false, "ground"})
			d.outdoorMark(Mark{At: plan.Point{(from + to) / 2, *ground}, Of: MarkGround, LevelMM: *ground, Under: true}, plan.Interval{From: from, To: to}, near)
		}
	}
}

// weep draws the weep holes at the foot of a flashing that is cut, through the outer leaf of the wall
// over a stretch of the cut, to its face outside.
func (d *Drawing) weep(room plan.Region, wall plan.Interval) {
	for _, a := range d.Areas {
		low, high, ok := a.Region.Bounds()
		if a.PartID != "flashing" || !ok || low.X() < wall.From || high.X() > wall.To {
			continue
		}
		foot, face := plan.Point{high.X(), low.Y()}, wall.To
		if room.Contains(d.planAt(wall.To+1), 0) {
			foot[0], face = low.X(), wall.From
		}
		d.Lines = append(d.Lines, Line{[]plan.Point{foot, {face, foot.Y()}}, Medium, true, "weep"})
		d.Marks = append(d.Marks, Mark{At: foot, Of: MarkFlashing})
		return
	}
}

// outdoorMark names a level at a wall, over a stretch of the cut.
func (d *Drawing) outdoorMark(m Mark, over plan.Interval, lookedAt bool) {
	d.Marks = append(d.Marks, m)
	d.Low = plan.Point{math.Min(d.Low.X(), over.From), d.Low.Y()}
	d.High = plan.Point{math.Max(d.High.X(), over.To), d.High.Y()}
	if lookedAt {
		d.FocusLow = plan.Point{math.Min(d.FocusLow.X(), over.From), math.Min(d.FocusLow.Y(), math.Max(d.Low.Y(), m.LevelMM-underLevelMM))}
		d.FocusHigh = plan.Point{math.Max(d.FocusHigh.X(), over.To), d.FocusHigh.Y()}
	}
}

// headroomText says how high it is up to the ceiling, and where nobody measured that.
func headroomText(r geometry.Result, mm float64) message.Message {
	id := message.ID("dimension.headroom")
	if r.Stated.StandingOf("room.heightMM").Open() {
		id = "dimension.headroom-assumed"
	}
	return message.Of(id, message.MM("height", mm))
}

// headroom dimensions, where people stand, what is over the finished floor of the shower up to
// the ceiling: at both ends of one that slopes, else where it is least.
func (d *Drawing) headroom(r geometry.Result) {
	const sameMM, leastMM = 1, 400
	for _, iv := range d.along(r.Layout.FallArea) {
		if iv.To-iv.From < leastMM {
			continue
		}
		over := func(x float64, side float64) (float64, Dimension) {
			p := d.planAt(x)
			floor, ceiling := r.Heights.ShowerAt(&r.Layout, p), r.Layout.CeilingAt(p)
			text := headroomText(r, ceiling-floor)
			return ceiling - floor, Dimension{From: plan.Point{x, floor}, To: plan.Point{x, ceiling}, Text: text,
				Row: 1, Side: plan.Point{side, 0}, OffCut: true}
		}
		insideMM := math.Min(measure.StandingInMM, (iv.To-iv.From)/2)
		a, left := over(iv.From+insideMM, 1)
		b, right := over(iv.To-insideMM, -1)
		level := math.Abs(left.To.Y()-right.To.Y()) < sameMM
		switch {
		case math.Abs(a-b) < sameMM:
			_, left = over((iv.From+iv.To)/2, 1)
			d.Dimensions = append(d.Dimensions, left)
		case level && b < a:
			d.Dimensions = append(d.Dimensions, right)
		case level:
			d.Dimensions = append(d.Dimensions, left)
		default:
			d.Dimensions = append(d.Dimensions, left, right)
		}
	}
}
