// Package sequence is the order of work of a job: its steps, who does each, what it waits for, what is read while it is
// done, and after which nothing can be taken back.
package sequence

import (
	"slices"
	"strings"

	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/buildup"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// Trade is who does a step.
type Trade string

// The trades.
const (
	Fitter      Trade = "fitter"
	Carpenter   Trade = "carpenter"
	Plumber     Trade = "plumber"
	Electrician Trade = "electrician"
	Tiler       Trade = "tiler"
	Glazier     Trade = "glazier"
)

// Name is the id of what the trade is called.
func (t Trade) Name() message.ID { return message.ID("trade." + string(t)) }

// Target is a level that is read while a step is done.
type Target struct {
	What    message.Message
	LevelMM float64      // over the datum
	Row     *buildup.Row // of the schedule that it is; nil for none
}

// Step is one of the order of work.
type Step struct {
	// ID tells the steps of a job apart, and is what its words are found by.
	ID string
	By Trade
	// After are the ids of the steps that it waits for, all of them before it.
	After   []string
	Targets []Target
	// Hold tells that nothing goes on before somebody has seen to it and signed.
	Hold bool
	// Final says why nothing of it can be taken back once it is done; empty where it can.
	Final message.ID
	// Minds are the ids of the rules whose cautions bite in it.
	Minds []string
	// Bodies are those of the assembly that it makes, by their ids.
	Bodies []string
}

// Name is the id of what is done.
func (s *Step) Name() message.ID { return message.ID("sequence." + s.ID) }

// kind is a step as any job may have it.
type kind struct {
	id    string
	by    Trade
	after []string
	stage rule.Stage
	hold  bool
	final message.ID
	// minds are the cautions that bite in it, by their rules; those that no step of a job has bite in the first of their stage.
	minds []string
	// again are cautions that are said in it once more, as it is done after the step that they bite in first.
	again []string
	// makes is the stage whose bodies it makes, bodies the beginnings of the ids of others. It is of a job that has one
	// of them, or where needed tells so.
	makes   buildup.Stage
	bodies  []string
	needed  func(r *geometry.Result) bool
	targets func(r *geometry.Result) []Target
}

// Why a step cannot be taken back.
const (
	Covered message.ID = "sequence.final-covered" // what lies under it cannot be reached any more
	Bored   message.ID = "sequence.final-bored"   // a hole stays where it is
	Sealed  message.ID = "sequence.final-sealed"  // what is changed later breaks the sealing
)

// BoreWall is the step in which the hole through the wall is made.
const BoreWall = "core"

// kinds are all steps in their order. Common practice, no source: what is covered is tested first, corners are sealed
// before tape and tape before the coats, walls are tiled before floors, joints are sealed last.
func kinds() []kind {
	always := func(*geometry.Result) bool { return true }
	return []kind{
		{id: "survey", by: Fitter, stage: rule.BeforeCutting, hold: true, needed: always, targets: levels(buildup.FloorHigh)},
		{id: "joists", by: Carpenter, after: []string{"survey"}, stage: rule.BeforeCutting, hold: true,
			bodies:  []string{"batten", "noggin", "ledger", "second-joist", "trimmer"},
			needed:  func(r *geometry.Result) bool { return len(r.Layout.CutOuts) > 0 || len(r.Joists) > 0 },
			targets: levels(buildup.LedgerTop)},
		{id: "bore-joists", by: Carpenter, after: []string{"survey", "joists"}, stage: rule.BeforeCutting, hold: true, final: Bored,
			again:  []string{"c-structure", "c-services"},
			needed: func(r *geometry.Result) bool { return len(r.Joists) > 0 }},
		{id: BoreWall, by: Plumber, after: []string{"survey"}, stage: rule.BeforeCutting, final: Bored,
			minds:   []string{"c-cavity"},
			needed:  func(r *geometry.Result) bool { _, ok := r.Heights.Core(&r.Settled, &r.Layout); return ok },
			targets: coreLevel},
		{id: "base", by: Fitter, after: []string{"survey", "joists", "core"}, stage: rule.BuildingUp,
			makes: buildup.StageBase, targets: levels(buildup.BaseTop)},
		{id: "room-base", by: Fitter, after: []string{"base"}, stage: rule.BuildingUp,
			bodies: []string{"room-adhesive", "room-base", "room-board-bed", "room-lower-board", "room-levelling"}},
		{id: "waste", by: Plumber, after: []string{"bore-joists", "core", "base"}, stage: rule.LayingWaste,
			makes:   buildup.StageWaste,
			targets: levels(buildup.OutletInvert, buildup.PieceInvert, buildup.PieceInvertAtWall, buildup.ExitInvert)},
		{id: "leak-test", by: Plumber, after: []string{"waste"}, stage: rule.LayingWaste, hold: true, minds: []string{"c-cover", "us-cover"},
			needed: func(r *geometry.Result) bool { return len(r.Heights.Run.Pieces) > 0 }},
		{id: "trough", by: Fitter, after: []string{"leak-test"}, stage: rule.LayingWaste, final: Covered, bodies: []string{"trough", "boxing"}},
		{id: "former", by: Fitter, after: []string{"base", "trough", "leak-test"}, stage: rule.BuildingUp, final: Covered,
			makes: buildup.StageFormer, targets: formerLevels},
		{id: "ramp", by: Fitter, after: []string{"former"}, stage: rule.BuildingUp, bodies: []string{"ramp"}},
		{id: "linings", by: Fitter, after: []string{"base"}, stage: rule.BuildingUp, bodies: []string{"wall-course"}},
		{id: "courses", by: Fitter, after: []string{"former"}, stage: rule.Finishing, bodies: []string{"room-course", "shower-course"}},
		{id: "heating", by: Electrician, after: []string{"courses"}, stage: rule.Finishing, hold: true,
			minds:  []string{"c-heating", "uk-heating"},
			needed: func(r *geometry.Result) bool { return len(r.Layout.Heated) > 0 }},
		{id: "tanking", by: Tiler, after: []string{"former", "ramp", "linings", "courses"}, stage: rule.Finishing, final: Sealed,
			minds: []string{"au-bond"}, makes: buildup.StageTanking, bodies: []string{"boxing-tanking"}},
		{id: "flood-test", by: Tiler, after: []string{"tanking"}, stage: rule.Finishing, hold: true,
			needed: func(r *geometry.Result) bool { return r.Settled.Layers.Shower.Tanking.ThicknessMM > 0 }},
		{id: "wall-tile", by: Tiler, after: []string{"flood-test", "tanking"}, stage: rule.Finishing, final: Covered,
			makes: buildup.StageWallTile},
		{id: "floor-tile", by: Tiler, after: []string{"flood-test", "wall-tile", "heating"}, stage: rule.Finishing, final: Covered,
			minds: []string{"c-slip"}, makes: buildup.StageTile,
			targets: levels(buildup.TileAtDrain, buildup.EdgeTile, buildup.RoomFloor, buildup.DoorFloor)},
		{id: "sealant", by: Tiler, after: []string{"wall-tile", "floor-tile"}, stage: rule.Finishing, bodies: []string{"sealant-"}},
		{id: "pump", by: Plumber, after: []string{"waste"}, stage: rule.HandingOver, hold: true,
			minds: []string{"c-pump"}, bodies: []string{"pump", "discharge"}},
		{id: "glass", by: Glazier, after: []string{"floor-tile", "sealant"}, stage: rule.HandingOver,
			needed: func(r *geometry.Result) bool { return len(r.Layout.Screens) > 0 }},
		{id: "cover", by: Fitter, after: []string{"floor-tile", "sealant"}, stage: rule.HandingOver,
			bodies: []string{"cover"}, targets: levels(buildup.CoverSet)},
		{id: "water-trial", by: Fitter, after: []string{"cover", "glass", "pump"}, stage: rule.HandingOver, hold: true,
			minds: []string{"c-scald", "us-scald"}, needed: always},
	}
}

// Of is the order of work of a result that could be worked out; none of another.
func Of(r *geometry.Result) []Step {
	if len(r.Problems) > 0 {
		return nil
	}
	var out []Step
	var done []kind
	made := map[string]bool{}
	bodies := byKind(r.Assembly.Parts)
	for _, k := range kinds() {
		of := bodies[k.id]
		if len(of) == 0 && (k.needed == nil || !k.needed(r)) {
			continue
		}
		s := Step{ID: k.id, By: k.by, Hold: k.hold, Final: k.final, Bodies: of}
		for _, id := range k.after {
			if made[id] {
				s.After = append(s.After, id)
			}
		}
		if k.targets != nil {
			s.Targets = k.targets(r)
		}
		made[k.id], out, done = true, append(out, s), append(done, k)
	}
	for i := range r.Cautions {
		of := &r.Cautions[i].Rule
		at := slices.IndexFunc(done, func(k kind) bool { return slices.Contains(k.minds, of.ID) })
		if at < 0 {
			at = slices.IndexFunc(done, func(k kind) bool { return k.stage == of.Stage })
		}
		if at >= 0 {
			out[at].Minds = append(out[at].Minds, of.ID)
		}
		for k := at + 1; at >= 0 && k < len(done); k++ {
			if slices.Contains(done[k].again, of.ID) {
				out[k].Minds = append(out[k].Minds, of.ID)
			}
		}
	}
	return out
}

// byKind are the bodies that each step makes: of several beginnings that fit a body's id the longest counts, without one its
// stage. What stands there before the work begins is made by none.
func byKind(parts []assembly.Part) map[string][]string {
	out := map[string][]string{}
	all := kinds()
	for i := range parts {
		p := &parts[i]
		if p.Stage == buildup.StageBare {
			continue
		}
		best, of := 0, ""
		for _, k := range all {
			if k.makes == p.Stage && best == 0 {
				of = k.id
			}
			for _, begins := range k.bodies {
				if strings.HasPrefix(p.ID, begins) && len(begins) > best {
					best, of = len(begins), k.id
				}
			}
		}
		out[of] = append(out[of], p.ID)
	}
	return out
}

// levels are rows of the schedule as targets.
func levels(rows ...buildup.RowOf) func(*geometry.Result) []Target {
	return func(r *geometry.Result) (out []Target) {
		for i := range r.Schedule {
			row := &r.Schedule[i]
			for _, of := range rows {
				if row.ID.Of == of && row.Kind() == buildup.IsLevel {
					out = append(out, Target{row.Message(), row.Value, row})
				}
			}
		}
		return out
	}
}

// coreLevel is that of the middle of the hole through the wall.
func coreLevel(r *geometry.Result) []Target {
	core, ok := r.Heights.Core(&r.Settled, &r.Layout)
	if !ok {
		return nil
	}
	return []Target{{What: message.Of("sequence.core-middle"), LevelMM: core.CentreMM}}
}

// formerLevels are the drain's flange and the former's top where the floor is read.
func formerLevels(r *geometry.Result) []Target {
	out := levels(buildup.Flange)(r)
	rods, _ := r.Rods()
	for _, rod := range rods {
		for _, layer := range rod.Layers {
			if layer.Kind == buildup.Former {
				where := message.In("where", message.Of(rod.Of.Name()))
				out = append(out, Target{What: message.Of("sequence.former-top", where), LevelMM: layer.TopMM})
			}
		}
	}
	return out
}

// IDs are the ids of the words of all steps and trades.
func IDs() []message.ID {
	out := message.Names([]Trade{Fitter, Carpenter, Plumber, Electrician, Tiler, Glazier})
	for _, k := range kinds() {
		out = append(out, (&Step{ID: k.id}).Name())
	}
	return out
}
