package settle

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// Sizes of the shower and of a screen that make sense at all.
const (
	leastShowerMM = 300
	leastScreenMM = 50
)

// A shower that has to slide farther than elsewhereMM along its wall has gone to another place: where no more than
// trimmedMM off its size keeps it where it is, as in a room that is measured a little out of square, that is what is done.
// Common practice, no source.
const (
	elsewhereMM = 100
	trimmedMM   = 10
)

// sound tells whether the shower's wall and the room it lies in are there at all.
func (s *settler) sound() bool {
	r := &s.job.Room
	n := len(r.Outline)
	if w := s.job.Shower.Wall; n < 3 || w < 0 || w >= n {
		return false
	}
	for i := range n {
		if !(r.WallLengthMM(i) >= 1) {
			return false
		}
	}
	_, _, crossing := plan.Ring(r.Outline).CrossingEdges()
	return !crossing
}

// shower has the shower lie in the room: slid along its wall, unless a few millimetres off its size do where that is far,
// or else smaller, in the corner it is in. A size that somebody has stated is the last to give way: one that usual practice
// stands in for, or that is not known, does before.
func (s *settler) shower() {
	if !s.changed("room.outline", showerKey) || !s.sound() || s.job.ShowerInRoom() {
		return
	}
	if was := s.job.Shower; s.fitted() {
		s.headInShower()
	} else {
		s.job.Shower = was
	}
}

// fitted fits the shower into the room in the first of these ways that is there; false where none is.
func (s *settler) fitted() bool {
	was := s.job.Shower
	slides := s.slideShower()
	slid := s.job.Shower
	if slides && s.slidBy(was, elsewhereMM) {
		return true
	}
	if s.job.Shower = was; s.trimmed() {
		return true
	}
	if slides {
		s.job.Shower = slid
		return true
	}
	for _, s.keepsStated = range [...]bool{true, false} {
		for _, fit := range [...]func() bool{s.shallower, s.narrower, s.shallowerAndNarrower} {
			if s.job.Shower = was; fit() {
				return true
			}
		}
	}
	return false
}

// slidBy tells whether the shower has slid no farther than that along its wall, and off none of the walls that it stood at:
// a strip of the room's floor would be left there.
func (s *settler) slidBy(from job.Shower, mostMM float64) bool {
	if math.Abs(s.job.Shower.OffsetMM-from.OffsetMM) > mostMM {
		return false
	}
	unslid := s.job
	unslid.Shower = from
	is := s.job.ShowerSides()
	for side, stood := range unslid.ShowerSides() {
		for _, at := range stood {
			if at.Wall >= 0 && !slices.ContainsFunc(is[side], func(now job.Stretch) bool { return now.Wall == at.Wall }) {
				return false
			}
		}
	}
	return true
}

// trimmed takes a few millimetres off the shower's depth or width, or both, so that it lies in the room about where it
// is; false where that is no help.
func (s *settler) trimmed() bool {
	was, step := s.job.Shower, stepMM(s.job.Units)
	for by := step; by <= trimmedMM; by += step {
		deep, wide := s.onStep(was.DepthMM-by, false), s.onStep(was.WidthMM-by, false)
		for _, size := range [...][2]float64{{was.WidthMM, deep}, {wide, was.DepthMM}, {wide, deep}} {
			narrower, shallower := size[0] < was.WidthMM, size[1] < was.DepthMM
			if shallower && !s.mayShrink("shower.depthMM") || narrower && !s.mayShrink("shower.widthMM") {
				continue
			}
			s.job.Shower = was
			s.job.Shower.WidthMM, s.job.Shower.DepthMM = size[0], size[1]
			if unslid := s.job.Shower; s.job.ShowerInRoom() || s.slideShower() && s.slidBy(unslid, trimmedMM) {
				return true
			}
		}
	}
	s.job.Shower = was
	return false
}

// mayShrink tells whether sizes of the shower may become smaller.
func (s *settler) mayShrink(keys ...string) bool {
	stated := func(key string) bool { return !s.before.StandingOf(key).Open() }
	return s.free(keys...) && !(s.keepsStated && slices.ContainsFunc(keys, stated))
}

// slideShower slides the shower along its wall to the nearest place where it lies in the room.
func (s *settler) slideShower() bool {
	if !s.free("shower.offsetMM") {
		return false
	}
	sh := &s.job.Shower
	was, most := sh.OffsetMM, s.job.Room.WallLengthMM(sh.Wall)-sh.WidthMM
	if most < -plan.HairMM {
		return false
	}
	most = math.Max(0, most)
	places := []float64{0, most}
	for _, p := range s.job.Room.Outline {
		at := alongWall(&s.job.Room, sh.Wall, p)
		places = append(places, at, at-sh.WidthMM)
	}
	slices.SortFunc(places, func(a, b float64) int { return cmp.Compare(math.Abs(a-was), math.Abs(b-was)) })
	fits := func(mm float64) bool {
		sh.OffsetMM = mm
		return s.job.ShowerInRoom()
	}
	for _, at := range places {
		if at = math.Max(0, math.Min(at, most)); fits(at) {
			sh.OffsetMM = s.nearest(was, at, fits)
			return true
		}
	}
	return false
}

// shallower makes the shower as deep as there is room for.
func (s *settler) shallower() bool {
	return s.smaller("shower.depthMM", &s.job.Shower.DepthMM, func(float64) {})
}

// narrower makes the shower as wide as there is room for, in the corner that it was in.
func (s *settler) narrower() bool {
	if !s.mayShrink("shower.widthMM") {
		return false
	}
	was := s.job.Shower
	type fit struct {
		shower job.Shower
		byMM   float64
	}
	var best *fit
	for _, towardsEnd := range s.anchors() {
		s.job.Shower = was
		offset := was.OffsetMM
		if offset+was.WidthMM > s.job.Room.WallLengthMM(was.Wall) && towardsEnd {
			offset = s.job.Room.WallLengthMM(was.Wall) - was.WidthMM
		}
		if (towardsEnd || offset != was.OffsetMM) && !s.free("shower.offsetMM") {
			continue
		}
		ok := s.smaller("shower.widthMM", &s.job.Shower.WidthMM, func(mm float64) {
			if towardsEnd {
				s.job.Shower.OffsetMM = math.Max(0, offset+was.WidthMM-mm)
			}
		})
		if by := was.WidthMM - s.job.Shower.WidthMM; ok && (best == nil || by < best.byMM) {
			best = &fit{s.job.Shower, by}
		}
	}
	if best == nil {
		s.job.Shower = was
		return false
	}
	s.job.Shower = best.shower
	return true
}

// anchors are the ends of its wall that a shower may stay at as it shrinks: the corner it was in.
func (s *settler) anchors() []bool {
	switch start, end := s.before.ShowerInCorner(); {
	case start:
		return []bool{false, true}
	case end:
		return []bool{true, false}
	}
	return []bool{false, true}
}

func (s *settler) shallowerAndNarrower() bool {
	if !s.mayShrink("shower.depthMM", "shower.widthMM") {
		return false
	}
	deep := s.job.Shower.DepthMM
	for d := deep - 1; d >= leastShowerMM; d = math.Min(d-1, math.Floor(d*depthStep)) {
		if s.job.Shower.DepthMM = d; s.narrower() {
			s.job.Shower.DepthMM = deep
			return s.shallower()
		}
	}
	return false
}

// depthStep is by which share the depth shrinks at a time where depth and width both have to.
const depthStep = 0.98

// smaller has a size of the shower be the greatest with which it lies in the room.
func (s *settler) smaller(key string, size *float64, along func(mm float64)) bool {
	if !s.mayShrink(key) {
		return false
	}
	was := *size
	fits := func(mm float64) bool {
		*size = mm
		along(mm)
		return s.job.ShowerInRoom()
	}
	if was <= leastShowerMM || !fits(leastShowerMM) {
		return false
	}
	mm := s.nearest(was, leastShowerMM, fits)
	return fits(mm)
}

// nearest is the value nearest to one that does not fit, between it and one that does: in whole
// millimetres or sixteenths of an inch, unless it is where something begins or ends.
func (s *settler) nearest(unfit, fit float64, fits func(float64) bool) float64 {
	const enough, hair = 60, 1e-4
	good, bad := fit, unfit
	for range enough {
		middle := (good + bad) / 2
		if math.Abs(good-bad) < hair/4 {
			break
		}
		if fits(middle) {
			good = middle
		} else {
			bad = middle
		}
	}
	if exact := math.Round(good/hair) * hair; math.Abs(exact-good) < hair && fits(math.Round(exact*1e4)/1e4) {
		good = math.Round(exact*1e4) / 1e4
	}
	if on := s.onStep(good, fit < unfit); fits(on) && (on-fit)*(good-fit) >= 0 {
		if whole := math.Abs(unfit-math.Round(unfit)) < hair; whole || s.job.Units == unit.Imperial {
			return on
		}
	}
	fits(good)
	return good
}

// onStep is the next value that a tape reads, downwards or upwards.
func (s *settler) onStep(mm float64, down bool) float64 {
	const hair = 1e-3
	step := stepMM(s.job.Units)
	if down {
		return math.Floor(mm/step+hair) * step
	}
	return math.Ceil(mm/step-hair) * step
}

// stepMM is what lengths are told apart by on a tape.
func stepMM(u unit.System) float64 {
	if u == unit.Imperial {
		return 25.4 / 16
	}
	return 1
}

// headInShower keeps the shower's head in the shower, where it was in it.
func (s *settler) headInShower() {
	head, was := s.job.Shower.Head, s.before.Shower.Head
	if head == nil || was == nil || !s.free("shower.head.at[0]", "shower.head.at[1]") {
		return
	}
	before := frameOf(s.before)
	across, into := before.to(was.At)
	const in = job.AtWallMM
	if across < -in || across > s.before.Shower.WidthMM+in || into < -in || into > s.before.Shower.DepthMM+in {
		return
	}
	at := frameOf(&s.job).from(clamp(across, 0, s.job.Shower.WidthMM), clamp(into, 0, s.job.Shower.DepthMM))
	if at.Sub(head.At).Len() > plan.HairMM {
		head.At = at
	}
}

func clamp(v, least, greatest float64) float64 { return math.Max(least, math.Min(v, greatest)) }

// frame is where the shower stands and which way round.
type frame struct{ origin, across, into plan.Point }

func frameOf(j *job.Job) frame {
	c := j.ShowerCorners()
	return frame{c[0], c[1].Sub(c[0]).Normalize(), c[3].Sub(c[0]).Normalize()}
}

func (f frame) to(p plan.Point) (acrossMM, intoMM float64) {
	off := p.Sub(f.origin)
	return off.Dot(f.across), off.Dot(f.into)
}

func (f frame) from(acrossMM, intoMM float64) plan.Point {
	return rounded(f.origin.Add(f.across.Mul(acrossMM)).Add(f.into.Mul(intoMM)))
}

// rounded is a point without what sums of lengths lose.
func rounded(p plan.Point) plan.Point {
	const perMM = 1e6
	return plan.Point{math.Round(p.X()*perMM) / perMM, math.Round(p.Y()*perMM) / perMM}
}

// screens keeps screens on the sides of a shower that has become smaller, where they were on them.
func (s *settler) screens() {
	was := s.before.Shower
	if s.job.Shower.WidthMM >= was.WidthMM && s.job.Shower.DepthMM >= was.DepthMM || len(was.Screens) != len(s.job.Shower.Screens) {
		return
	}
	for i := range s.job.Shower.Screens {
		pane, before := &s.job.Shower.Screens[i], was.Screens[i]
		if pane.Side != before.Side || before.OffsetMM+before.WidthMM > sideMM(&was, before.Side)+plan.HairMM {
			continue
		}
		key, side := fmt.Sprintf("shower.screens[%d]", i), sideMM(&s.job.Shower, pane.Side)
		if room := side - pane.OffsetMM; pane.WidthMM > side && room >= leastScreenMM && s.free(key+".widthMM") {
			pane.WidthMM = room
		}
		if pane.OffsetMM+pane.WidthMM > side+plan.HairMM && s.free(key+".offsetMM") {
			pane.OffsetMM = math.Max(0, side-pane.WidthMM)
		}
	}
}

// sideMM is how long a side of the shower is.
func sideMM(s *job.Shower, side job.ShowerSide) float64 {
	if side == job.SideLeft || side == job.SideRight {
		return s.DepthMM
	}
	return s.WidthMM
}
