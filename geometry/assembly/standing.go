package assembly

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
	"underfall/geometry/waste"
)

// StackWallMM is the wall that a stack is drawn with. Common practice, no source.
const StackWallMM = 3

// standing are the bodies that stand in the room or outside it and were there before.
func (b *builder) standing() {
	b.pump()
	b.oldPipe()
	b.vent()
	b.boxing()
	b.sleeve()
	b.flashing()
	b.pipeEnds()
	for i, s := range b.layout.Stacks {
		line := []mgl64.Vec3{s.At.Vec3(b.wallFootMM()), s.At.Vec3(math.Max(b.layout.CeilingAt(s.At), b.wallFootMM()+leastWallMM))}
		b.add(Part{ID: fmt.Sprintf("stack-%d", i+1), Name: message.Of("part.stack", message.No("n", i+1)), Material: material.Plastic,
			Stage: buildup.StageBare, Precedence: precedencePipe, From: fmt.Sprintf("room.stacks[%d]", i),
			Shape: tube(2*s.RadiusMM, 2*(s.RadiusMM-StackWallMM), line...)[0]})
	}
}

// besidePump is a region of the room's floor less a pump that stands on the structural
// floor, or the existing pipe that the run joins, and less the boxes over the run.
func (b *builder) besidePump(region plan.Region, what message.Message) plan.Region {
	region = b.besideBoxes(region)
	if old := b.oldPipeStrip(); len(old) > 0 {
		return b.subtract(region, old, what)
	}
	p, run := b.job.Waste.IntoPump(), &b.heights.Run
	if p == nil || !p.OnStructure || len(run.Pieces) == 0 {
		return region
	}
	return b.subtract(region, plan.FromRing(layout.PumpBox(*p, run.Exit, run.ExitTo)), what)
}

// pump is the box of the pump that the run leads into, on the floor.
func (b *builder) pump() {
	p, run := b.job.Waste.IntoPump(), &b.heights.Run
	if p == nil || len(run.Pieces) == 0 {
		return
	}
	box := plan.FromRing(layout.PumpBox(*p, run.Exit, run.ExitTo))
	at := box.Centroid()
	foot := p.FootMM(b.floor.FinishedMM(at), b.heights.StructureAt(&b.job, &b.layout, at))
	b.add(Part{ID: "pump", Name: message.Of("part.pump"), Material: material.Plastic,
		Stage: buildup.StageTile, Precedence: precedenceTrap, From: "waste.pump",
		Shape: b.casing(p, box, foot)})
	if p.DischargeMM == nil {
		return
	}
	// Upright from the end far from the inlet, as far as the ceiling.
	const shareOfLength, leastMM = 0.8, 20
	up := run.Exit.Add(run.ExitTo.Mul(shareOfLength * p.LengthMM))
	size, from, to := math.Max(leastMM, p.DischargeNominalMM), foot+p.HeightMM, math.Min(*p.DischargeMM, b.layout.CeilingAt(up))
	if to-from < plan.HairMM {
		return
	}
	b.add(Part{ID: "discharge", Name: message.Of("part.discharge"), Material: material.Plastic,
		Stage: buildup.StageTile, Precedence: precedencePipe, From: "waste.pump",
		Shape: tube(size, size*BoreShare, up.Vec3(from), up.Vec3(to))[0]})
}

// pumpWallMM is the wall that a pump's box is drawn with. Common practice, no source.
const pumpWallMM = 4

// sleeve is the pipe that the waste goes through both leaves of a cavity wall in: as wide as the hole
// for it, where that leaves room for its wall.
func (b *builder) sleeve() {
	const wallMM, slackMM, shortMM = 3, 0.2, 2
	run, room := &b.heights.Run, b.job.Waste.HoleRoomMM
	if run.Wall == 0 || !b.heights.ThroughLeaves(&b.job, &b.layout) || room < wallMM+slackMM {
		return
	}
	w := &b.layout.Walls[run.Wall-1]
	hole := CoreHole(run, *w, room)
	size := 2 * (hole.RadiusMM - slackMM)
	in := w.At(hole.EntryMM).Vec3(hole.EntryLevelMM)
	out := w.At(hole.ExitMM).Add(w.Outward.Mul(w.ThicknessMM)).Vec3(hole.ExitLevelMM)
	short := out.Sub(in).Normalize().Mul(shortMM)
	b.add(Part{ID: "sleeve", Name: message.Of("part.sleeve"), Material: material.Plastic, Stage: buildup.StageWaste,
		Precedence: precedenceLayer, From: "waste.holeRoomMM", Shape: tube(size, size-2*wallMM, in.Add(short), out.Sub(short))[0]})
}

// A flashing over a sleeve goes so far up the inner leaf, and to both sides past the hole to its stop
// ends. Common practice, no source.
const (
	flashingUpMM   = 150
	flashingPastMM = 100
	flashingMM     = 3 // as thick as it is drawn
)

// Flashing is the profile, by distances from the wall's inner face and levels, of the flashing over
// the sleeve of a run through a cavity wall: up the inner leaf, and down across the cavity to its foot
// on the outer one, where the weep holes are; ok is false where there is no cavity to dress it in.
func Flashing(run *waste.Run, w layout.Wall, leaves []job.Leaf, roomMM float64) (profile plan.Ring, footMM float64, ok bool) {
	if len(leaves) < 2 || leaves[1].FromMM-leaves[0].ToMM < 2*flashingMM {
		return nil, 0, false
	}
	hole := CoreHole(run, w, roomMM)
	in, out := leaves[0].ToMM, leaves[1].FromMM
	half := hole.CutHighMM() - math.Max(hole.EntryLevelMM, hole.ExitLevelMM)
	footMM = hole.EntryLevelMM + (hole.ExitLevelMM-hole.EntryLevelMM)*out/w.ThicknessMM + half + flashingMM
	head := footMM + flashingUpMM
	return plan.Ring{{in, head}, {in, head - flashingUpMM/2}, {out, footMM}, {out, footMM + flashingMM},
		{in + flashingMM, head - flashingUpMM/2 + flashingMM}, {in + flashingMM, head}}, footMM, true
}

// flashing is that over the sleeve, from stop end to stop end.
func (b *builder) flashing() {
	run := &b.heights.Run
	if run.Wall == 0 || !b.heights.ThroughLeaves(&b.job, &b.layout) {
		return
	}
	w := &b.layout.Walls[run.Wall-1]
	profile, _, ok := Flashing(run, *w, b.job.Room.Walls[run.Wall-1].Leaves(), b.job.Waste.HoleRoomMM)
	hole := CoreHole(run, *w, b.job.Waste.HoleRoomMM)
	half := hole.LengthMM()/2 + flashingPastMM
	from, to := math.Max(0, hole.MiddleMM()-half), math.Min(w.LengthMM, hole.MiddleMM()+half)
	if !ok || to <= from {
		return
	}
	name := message.Of("part.flashing")
	origin := w.At(from)
	if plan.Left(w.Outward).Dot(w.Along) > 0 {
		origin = w.At(to) // local z runs to the right of the way out
	}
	b.add(Part{ID: "flashing", Name: name, Material: material.DampProof, Stage: buildup.StageWaste, Precedence: precedenceLayer, From: "waste.exit",
		Shape: solid.Prism{Frame: solid.UprightFrame(upright(origin), w.Outward), Sheet: b.sheet(plan.FromRing(profile), name),
			Bottom: solid.Level(0), Top: solid.Level(to - from)}})
}

// casing is the hollow box of a pump on its foot, given all that it takes in plan.
func (b *builder) casing(p *job.Pump, outer plan.Region, foot float64) solid.Shape {
	what, run := message.Of("part.pump"), &b.heights.Run
	within := *p
	within.LengthMM, within.WidthMM = p.LengthMM-2*pumpWallMM, p.WidthMM-2*pumpWallMM
	inner := plan.FromRing(layout.PumpBox(within, run.Exit.Add(run.ExitTo.Mul(pumpWallMM)), run.ExitTo))
	whole, top := b.sheet(outer, what), foot+p.HeightMM
	floor, lid := foot+pumpWallMM, top-pumpWallMM
	sides := b.without(outer, inner, what)
	return solid.Compound{solid.Block(whole, foot, floor), solid.Block(sides, floor, lid), solid.Block(whole, lid, top)}
}

// oldPipeMM is how much is shown of an existing pipe that the run joins. Common practice, no
// source.
const oldPipeMM = 120

// OldPipeMM is how much of the existing pipe that a run joins is shown in the room: as far as
// a wall in its way.
func OldPipeMM(room plan.Region, run *waste.Run) float64 {
	for _, iv := range room.Clip(run.Exit, run.ExitTo) {
		if iv.From <= 0 && iv.To > 0 {
			return math.Min(oldPipeMM, iv.To)
		}
	}
	return 0
}

// oldPipeStrip is the floor that the existing pipe takes; nothing where the run joins none.
func (b *builder) oldPipeStrip() plan.Region {
	run := &b.heights.Run
	if b.job.Waste.Exit.Kind != job.ExitPipe || len(run.Pieces) == 0 {
		return nil
	}
	long := OldPipeMM(b.layout.Room, run)
	if long <= plan.HairMM {
		return nil
	}
	half := plan.Left(run.ExitTo).Mul(run.Pieces[len(run.Pieces)-1].After.OutsideDiameterMM / 2)
	end := run.Exit.Add(run.ExitTo.Mul(long))
	return plan.FromRing(plan.Ring{run.Exit.Sub(half), end.Sub(half), end.Add(half), run.Exit.Add(half)})
}

// oldPipe is the beginning of the existing pipe that the run joins, on from there in line.
func (b *builder) oldPipe() {
	run := &b.heights.Run
	if b.job.Waste.Exit.Kind != job.ExitPipe || len(run.Pieces) == 0 {
		return
	}
	last := &run.Pieces[len(run.Pieces)-1]
	_, from := ends(last)
	body := pipeTube(last.After, from, from.Add(run.ExitTo.Vec3(-last.Gradient()).Mul(OldPipeMM(b.layout.Room, run))))
	if len(body) == 0 {
		return
	}
	b.add(Part{ID: "old-pipe", Name: message.Of("part.old-pipe"), Material: material.Plastic,
		Stage: buildup.StageBare, Precedence: precedencePipe, From: "waste.exit", Shape: body[0]})
}

// vent is an upright pipe on the run, up to the ceiling. Under the shower it ends under the
// former: how it goes on from there to a wall is not stated.
func (b *builder) vent() {
	v, run := b.job.Waste.Vent, &b.heights.Run
	if v == nil || len(run.Pieces) == 0 {
		return
	}
	if _, in := b.job.StackAsVent(run.LengthMM); in {
		return // the stack goes on up as the vent
	}
	along := math.Min(v.AtMM, run.LengthMM)
	at, pipe := run.PointAt(along), run.PipeAt(along)
	foot, top := run.InvertAt(along)+pipe.BoreMM+pipe.WallMM(), b.layout.CeilingAt(at)
	if b.layout.FallArea.Contains(at, 0) {
		top = b.heights.BaseTopMM
	}
	if top-foot < plan.HairMM {
		return
	}
	b.add(Part{ID: "vent", Name: message.Of("part.vent"), Material: material.Plastic,
		Stage: buildup.StageWaste, Precedence: precedencePipe, From: "waste.vent",
		Shape: tube(v.NominalMM, v.NominalMM*BoreShare, at.Vec3(foot), at.Vec3(top))[0]})
}

// BoreShare is the bore, as a share of its size, that pipe is drawn with of which only the
// size is stated. Common practice, no source.
const BoreShare = 0.9

// PipeEndMM is how large the end of a pipe of unknown size is drawn. Common practice, no
// source.
const PipeEndMM = 50

// pipeEndBelowMM is how far down the end of a pipe is shown.
const pipeEndBelowMM = 100

// pipeEnds are the ends of pipes that were found, standing up to the crown at their
// inverts; up to the floor where those are not known.
func (b *builder) pipeEnds() {
	for i, p := range b.job.Room.PipeEnds {
		size := p.NominalMM
		if size == 0 {
			size = PipeEndMM
		}
		top := b.heights.Survey.Floor.At(p.At)
		if p.InvertMM != nil {
			top = *p.InvertMM + size
		}
		b.add(Part{ID: fmt.Sprintf("pipe-end-%d", i+1), Name: message.Of("part.pipe-end", message.No("n", i+1)), Material: material.Plastic,
			Stage: buildup.StageBare, Precedence: precedencePipe, From: fmt.Sprintf("room.pipeEnds[%d]", i),
			Shape: tube(size, size*BoreShare, p.At.Vec3(top-size-pipeEndBelowMM), p.At.Vec3(top))[0]})
	}
}

// round is a region of the floor less the stacks that stand on it.
func (b *builder) round(region plan.Region, what message.Message) plan.Region {
	for _, s := range b.layout.StandingOn(region) {
		region = b.subtract(region, plan.FromRing(plan.Circle(s.At, s.RadiusMM, solid.ChordErrorMM)), what)
	}
	return region
}
