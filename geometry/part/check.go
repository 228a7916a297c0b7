package part

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"underfall/geometry/message"
	"underfall/geometry/source"
)

// slackMM is by how much sizes may disagree that follow from each other: what
// rounding to a hundredth leaves.
const slackMM = 0.01

// Bounds of what a part may hold: far more than any is sold with.
const (
	MostBoards = 20 // thicknesses of a range of boards
	MostPoints = 20 // of what a trap carries
	mostRunes  = 120
)

// checker gathers what is wrong with a part.
type checker struct{ problems Problems }

func (c *checker) add(field string, id message.ID, args ...message.Arg) {
	c.problems = append(c.problems, Problem{field, message.Of(id, args...)})
}

// length checks that a length lies between two.
func (c *checker) length(field string, mm, least, greatest float64) bool {
	if !(mm >= least && mm <= greatest) { // not a number is neither
		c.add(field, "problem.between", message.Fine("least", least), message.Fine("greatest", greatest))
		return false
	}
	return true
}

// atMost checks how many of something there are.
func (c *checker) atMost(field string, n, most int) {
	if n > most {
		c.add(field, "problem.too-many", message.No("most", most), message.No("is", n))
	}
}

// text checks what somebody has typed, on one line.
func (c *checker) text(field, s string) {
	if n := utf8.RuneCountInString(s); n > mostRunes {
		c.add(field, "problem.too-long", message.No("is", n), message.No("most", mostRunes))
	} else if strings.ContainsFunc(s, message.Unseen) {
		c.add(field, "problem.unseen-characters")
	}
}

// source checks where figures come from.
func (c *checker) source(field string, s source.Source) {
	if s.Check() != nil {
		c.add(field+".mark", "part.problem.source")
	}
	c.text(field+".document", s.Document)
	c.text(field+".edition", s.Edition)
	c.text(field+".clause", s.Clause)
}

// soundID tells whether an id is of small letters, digits and single hyphens between.
func soundID(id string) bool {
	for _, word := range strings.Split(id, "-") {
		if word == "" || strings.Trim(word, "abcdefghijklmnopqrstuvwxyz0123456789") != "" {
			return false
		}
	}
	return true
}

// about checks what every part says of itself.
func (c *checker) about(a About) {
	if !soundID(a.ID) {
		c.add("id", "part.problem.id", message.Name("id", a.ID))
	}
	c.text("id", a.ID)
	c.text("called", a.Called)
	for i, r := range a.Regions {
		if len(r) < 2 || len(r) > 3 || strings.Trim(r, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
			c.add(fmt.Sprintf("regions[%d]", i), "part.problem.region", message.Name("region", r))
		}
	}
	c.source("source", a.Source)
}

// Check of a system: each pipe has a wall, each socket takes its pipe, each bend is as
// long as its sockets, and every reducer and adaptor begins at a size there is.
func (s PipeSystem) Check() Problems {
	var c checker
	c.about(s.About)
	if !slices.Contains([]Joint{Solvent, PushFit}, s.Joint) {
		c.add("joint", "part.problem.joint", message.Name("joint", string(s.Joint)))
	}
	if len(s.Sizes) == 0 {
		c.add("sizes", "part.problem.no-sizes")
	}
	c.length("stockMM", s.StockMM, 100, 20000)
	c.length("usualMM", s.UsualMM, 20, 200)
	for i, z := range s.Sizes {
		at := fmt.Sprintf("sizes[%d].", i)
		c.pipe(at, z.Pipe)
		c.text(at+"called", z.Called)
		c.source(at+"source", z.Source)
		if z.BoreSource != (source.Source{}) {
			c.source(at+"boreSource", z.BoreSource)
		}
		c.source(at+"fittingSource", z.FittingSource)
		if i > 0 && z.NominalMM <= s.Sizes[i-1].NominalMM {
			c.add(at+"nominalMM", "part.problem.sizes-order", message.Nominal("before", s.Sizes[i-1].NominalMM))
		}
	}
	for i, r := range s.Reducers {
		at := fmt.Sprintf("reducers[%d].", i)
		c.fitting(&s, at, r.FromMM, r.LengthMM)
		if _, ok := s.Size(r.ToMM); !ok || r.ToMM == r.FromMM {
			c.add(at+"toMM", "part.problem.no-size", message.Nominal("size", r.ToMM))
		}
	}
	for i, a := range s.Adaptors {
		at := fmt.Sprintf("adaptors[%d].", i)
		c.fitting(&s, at, a.FromMM, a.LengthMM)
		if a.To == s.ID || !soundID(a.To) {
			c.add(at+"to", "part.problem.id", message.Name("id", a.To))
		}
		c.length(at+"toMM", a.ToMM, leastNominalMM, mostNominalMM)
	}
	return c.problems
}

// fitting checks where a fitting of a system begins and how long it is.
func (c *checker) fitting(s *PipeSystem, at string, fromMM, lengthMM float64) {
	if _, ok := s.Size(fromMM); !ok {
		c.add(at+"fromMM", "part.problem.no-size", message.Nominal("size", fromMM))
	}
	c.length(at+"lengthMM", lengthMM, 1, 2000)
}

// Nominal sizes of pipe that a shower may have, and what it may run into.
const leastNominalMM, mostNominalMM = 20, 200

// pipe checks the numbers of one size.
func (c *checker) pipe(at string, p Pipe) {
	sound := c.length(at+"nominalMM", p.NominalMM, leastNominalMM, mostNominalMM)
	sound = c.length(at+"outsideDiameterMM", p.OutsideDiameterMM, 20, 250) && sound
	sound = c.length(at+"boreMM", p.BoreMM, 10, 240) && sound
	sound = c.length(at+"socketOutsideMM", p.SocketOutsideMM, 20, 300) && sound
	sound = c.length(at+"insertionMM", p.InsertionMM, 1, 300) && sound
	sound = c.length(at+"bend45FaceMM", p.Bend45FaceMM, 1, 300) && sound
	sound = c.length(at+"bend90FaceMM", p.Bend90FaceMM, 1, 500) && sound
	if !sound {
		return
	}
	if p.BoreMM >= p.OutsideDiameterMM {
		c.add(at+"boreMM", "problem.bore", message.Fine("outside", p.OutsideDiameterMM))
	}
	// A socket has a wall round the pipe; one of half the pipe's holds no joint.
	if least := p.OutsideDiameterMM + p.WallMM(); p.SocketOutsideMM < least-slackMM {
		c.add(at+"socketOutsideMM", "part.problem.socket", message.Fine("pipe", p.OutsideDiameterMM), message.Fine("least", least))
	}
	// The pipe ends before the middle of the bend.
	for _, b := range []struct {
		field string
		mm    float64
	}{{"bend45FaceMM", p.Bend45FaceMM}, {"bend90FaceMM", p.Bend90FaceMM}} {
		if b.mm <= p.InsertionMM {
			c.add(at+b.field, "part.problem.bend", message.Fine("insertion", p.InsertionMM))
		}
	}
}

// Check of boards: thinnest first, and a bed between that can be laid.
func (b Boards) Check() Problems {
	var c checker
	c.about(b.About)
	c.atMost("thicknessesMM", len(b.ThicknessesMM), MostBoards)
	for i, t := range b.ThicknessesMM {
		at := fmt.Sprintf("thicknessesMM[%d]", i)
		if c.length(at, t, 1, 300) && i > 0 && t <= b.ThicknessesMM[i-1] {
			c.add(at, "part.problem.thickness-order", message.Fine("before", b.ThicknessesMM[i-1]))
		}
	}
	c.length("leastMM", b.LeastMM, 0, 200)
	c.length("sawMarginMM", b.SawMarginMM, 0, 100)
	c.length("bedMM", b.BedMM, 0, 50)
	if len(b.ThicknessesMM) == 0 {
		c.screed(&b)
		return c.problems
	}
	c.length("widthMM", b.WidthMM, 100, 5000)
	if c.length("lengthMM", b.LengthMM, 100, 5000) {
		c.length("keepZoneMM", b.KeepZoneMM, 0, b.LengthMM)
	}
	if c.length("betweenLeastMM", b.BetweenLeastMM, 0, 30) {
		c.length("betweenGreatestMM", b.BetweenGreatestMM, b.BetweenLeastMM, 30)
	}
	return c.problems
}

// screed checks that what is poured has no sizes of boards.
func (c *checker) screed(b *Boards) {
	for _, x := range []struct {
		field string
		mm    float64
	}{
		{"lengthMM", b.LengthMM}, {"widthMM", b.WidthMM}, {"keepZoneMM", b.KeepZoneMM},
		{"betweenLeastMM", b.BetweenLeastMM}, {"betweenGreatestMM", b.BetweenGreatestMM},
	} {
		if x.mm != 0 {
			c.add(x.field, "part.problem.screed")
		}
	}
}

// Check of a former: a fall, and a thickness at its low edge.
func (f Former) Check() Problems {
	var c checker
	c.about(f.About)
	const steepest = 0.25
	if !(f.Slope >= 0 && f.Slope <= steepest) {
		c.add("slope", "part.problem.slope", message.Slope("greatest", steepest))
	}
	c.length("lowEdgeMM", f.LowEdgeMM, 0.5, 300)
	c.length("bedMM", f.BedMM, 0, 30)
	for _, size := range []struct {
		field string
		mm    float64
	}{{"longestMM", f.LongestMM}, {"widestMM", f.WidestMM}} {
		if size.mm != 0 {
			c.length(size.field, size.mm, 100, 10000)
		}
	}
	return c.problems
}

// Check of a drain: weir, seal and passage lie one under the other in the body, over
// its floor; the channel ends over the weir; the outlet takes what comes over it.
func (d Drain) Check() Problems {
	var c checker
	c.about(d.About)
	sound := true
	for _, x := range []struct {
		field           string
		mm, least, most float64
	}{
		{"widthMM", d.WidthMM, 20, 600}, {"flangeMM", d.FlangeMM, 0, 300}, {"channelDepthMM", d.ChannelDepthMM, 0, 300},
		{"bodyDepthMM", d.BodyDepthMM, 10, 600}, {"bodySizeMM", d.BodySizeMM, 40, 500}, {"weirDepthMM", d.WeirDepthMM, 1, 500},
		{"sealMM", d.SealMM, 1, 200}, {"passageMM", d.PassageMM, 1, 200}, {"leastFormerMM", d.LeastFormerMM, 0, 100}, {"coverLeastMM", d.CoverLeastMM, 0, 200},
	} {
		sound = c.length(x.field, x.mm, x.least, x.most) && sound
	}
	c.length("coverGreatestMM", d.CoverGreatestMM, math.Max(0, d.CoverLeastMM), 300)
	for i, l := range d.LengthsMM {
		c.length(fmt.Sprintf("lengthsMM[%d]", i), l, 50, 6000)
	}
	if len(d.Outlets) == 0 {
		c.add("outlets", "part.problem.no-outlet")
	}
	if sound {
		c.trap(&d)
	}
	for i, o := range d.Outlets {
		c.outlet(fmt.Sprintf("outlets[%d].", i), &d, o)
	}
	return c.problems
}

// trap checks that the water has its place in the body.
func (c *checker) trap(d *Drain) {
	if d.WeirDepthMM <= d.ChannelDepthMM {
		c.add("weirDepthMM", "part.problem.weir-over-channel", message.Fine("channel", d.ChannelDepthMM))
	}
	if need := d.WeirDepthMM + d.SealMM + d.PassageMM + TrapWallMM; need > d.BodyDepthMM+slackMM {
		c.add("bodyDepthMM", "part.problem.body", message.Fine("weir", d.WeirDepthMM), message.Fine("seal", d.SealMM), message.Fine("passage", d.PassageMM),
			message.Fine("wall", TrapWallMM), message.Fine("need", need))
	}
}

// outlet checks one way out.
func (c *checker) outlet(at string, d *Drain, o Outlet) {
	sound := c.length(at+"nominalMM", o.NominalMM, leastNominalMM, mostNominalMM)
	if sound = c.length(at+"invertDepthMM", o.InvertDepthMM, 5, 500) && sound; sound {
		if o.InvertDepthMM < d.WeirDepthMM-slackMM {
			c.add(at+"invertDepthMM", "part.problem.outlet-over-weir", message.Fine("weir", d.WeirDepthMM))
		}
		// It lies in the side of the body: its crown is under the flange.
		if o.InvertDepthMM < o.NominalMM-slackMM {
			c.add(at+"invertDepthMM", "part.problem.outlet-over-flange", message.Fine("least", o.NominalMM))
		}
		if most := d.BodyDepthMM - TrapWallMM; o.InvertDepthMM > most+slackMM {
			c.add(at+"invertDepthMM", "part.problem.outlet-under-body", message.Fine("most", most))
		}
	}
	if !slices.Contains(Joints(), o.Joint) {
		c.add(at+"joint", "part.problem.joint", message.Name("joint", string(o.Joint)))
	}
	c.length(at+"jointMM", o.JointMM, 0, 300)
	c.length(at+"jointOutsideMM", o.JointOutsideMM, 20, 300)
	c.atMost(at+"capacity", len(o.Capacity), MostPoints)
	for i, p := range o.Capacity {
		key := fmt.Sprintf("%scapacity[%d]", at, i)
		if !(p.HeadMM >= 0 && p.HeadMM <= 500 && p.FlowLPS >= 0 && p.FlowLPS <= 20) || i > 0 && (p.HeadMM <= o.Capacity[i-1].HeadMM || p.FlowLPS < o.Capacity[i-1].FlowLPS) {
			c.add(key, "problem.trap-data-order")
		}
	}
}

// Check of a tile.
func (t Tile) Check() Problems {
	var c checker
	c.about(t.About)
	c.length("thicknessMM", t.ThicknessMM, 0.5, 100)
	c.length("toleranceMM", t.ToleranceMM, 0, 30)
	c.length("lengthMM", t.LengthMM, 5, 3500)
	c.length("widthMM", t.WidthMM, 5, 3500)
	c.length("jointMM", t.JointMM, 0, 30)
	return c.problems
}

// Check of a layer.
func (l Layer) Check() Problems {
	var c checker
	c.about(l.About)
	if !slices.Contains(LayerUses(), l.Use) {
		c.add("use", "part.problem.use", message.Name("use", string(l.Use)))
	}
	c.length("thicknessMM", l.ThicknessMM, 0, 100)
	c.length("toleranceMM", l.ToleranceMM, 0, 30)
	return c.problems
}

// Check of timber.
func (t Timber) Check() Problems {
	var c checker
	c.about(t.About)
	for _, x := range []struct {
		field       string
		v, greatest float64
	}{{"bendingNMM2", t.BendingNMM2, 200}, {"shearNMM2", t.ShearNMM2, 50}, {"modulusNMM2", t.ModulusNMM2, 50000}, {"densityKGM3", t.DensityKGM3, 2000}} {
		if !(x.v > 0 && x.v <= x.greatest) {
			c.add(x.field, "part.problem.timber")
		}
	}
	return c.problems
}
