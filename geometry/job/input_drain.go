package job

import (
	"math"
	"slices"
	"strconv"

	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// OutletKey is the key of which way the trap's outlet points, by the word for it.
const OutletKey = "drain.outlet"

// DrainPartKey is the key of which drain, with its trap, of the shelf is fitted.
const DrainPartKey = "parts.drain"

// asEntered is the option that the numbers are those entered, of no part.
const asEntered message.ID = "field.as-entered"

// drainInputs are those of the drain with its trap, and of what carries it.
func drainInputs() []Input {
	return append(
		rows(StationDrain, true,
			fallWay(),
			shelved(DrainPartKey, asEntered,
				func(j *Job, s *part.Shelf) []part.Drain { return s.DrainsTo(j.Former.Fall.Linear()) },
				func(j *Job) *part.Drain { return j.Parts.Drain }),
			figure("drain.lengthMM", unit.Length, 0, 6000, 10, linear,
				func(j *Job) *float64 { return &j.Drain.LengthMM }),
			outletWay(),
			figure("former.slope", unit.Slope, 0, 0.25, 0.001, nil,
				func(j *Job) *float64 { return &j.Former.Slope }),
			numbers("water.showerFlowsLPS", unit.Column{Kind: unit.Flow, Greatest: mostFlowLPS}, 1, mostFlows, []float64{0.2, 0.15},
				func(j *Job) *[]float64 { return &j.Water.ShowerFlowsLPS }, asTyped),
			pick("base.support", SupportKinds(), func(j *Job) *SupportKind { return &j.Base.Support }).when(overJoists),
			pick("base.height", HeightModes(), func(j *Job) *HeightMode { return &j.Base.Height }),
			figure(BaseHeightKey, unit.Length, -600, 1000, 1, func(j Job) bool { return j.Base.Height == HeightChosen },
				func(j *Job) *float64 { return &j.Base.HeightMM })),
		rows(StationDrain, false, slices.Concat(
			under("place.base", baseInputs()...), under("place.former", formerInputs()...), under("place.drain", trapInputs()...),
			under("place.water", waterInputs()...))...)...)
}

// waterInputs are the less used ones of the water.
func waterInputs() []Input {
	return []Input{
		things(headList()),
		figure("water.otherDU", unit.Count, 0, 50, 0.1, nil,
			func(j *Job) *float64 { return &j.Water.OtherDU }),
		figure("water.largestDU", unit.Count, 0, 20, 0.1, shared,
			func(j *Job) *float64 { return &j.Water.LargestDU }),
	}
}

// outletWay is which way the trap's outlet points; any other angle is typed.
func outletWay() Input {
	return selection(OutletKey, []Option{
		{"0", message.Of("outlet.right")}, {"90", message.Of("outlet.to-the-back")},
		{"180", message.Of("outlet.left")}, {"270", message.Of("outlet.into-the-room")},
	}, func(j *Job) string { return strconv.FormatFloat(AngleDeg(j.Drain.OutletTurnDeg), 'f', -1, 64) }, nil)
}

// baseInputs are the less used ones of the base.
func baseInputs() []Input {
	return []Input{
		shelved("parts.boards", asEntered,
			func(_ *Job, s *part.Shelf) []part.Boards { return s.Boards }, func(j *Job) *part.Boards { return j.Parts.Boards }),
		numbers(BoardsKey, unit.Column{Kind: unit.Length, Least: 1, Greatest: mostBoardMM}, 1, mostBoards, []float64{12, 20, 30},
			func(j *Job) *[]float64 { return &j.Base.BoardsMM },
			func(j *Job, v []float64) []float64 {
				j.Base.Screed = j.Base.Screed && len(v) == 0 // with boards it is none
				return inOrder(j, v)
			}),
		figure("base.minThicknessMM", unit.Length, 0, 200, 1, nil,
			func(j *Job) *float64 { return &j.Base.MinThicknessMM }),
		figure("base.adhesiveMM", unit.Length, 0, 50, 0.5, onFloor,
			func(j *Job) *float64 { return &j.Base.AdhesiveMM }),
		figure("base.betweenLeastMM", unit.Length, 0, 30, 0.5, stacked,
			func(j *Job) *float64 { return &j.Base.BetweenLeastMM }),
		figure("base.betweenGreatestMM", unit.Length, 0, 30, 0.5, stacked,
			func(j *Job) *float64 { return &j.Base.BetweenGreatestMM }),
		things(underBaseList()),
		figure("base.sawMarginMM", unit.Length, 0, 100, 1, nil,
			func(j *Job) *float64 { return &j.Base.SawMarginMM }),
		figure("base.boardLengthMM", unit.Length, 100, 5000, 10, boarded,
			func(j *Job) *float64 { return &j.Base.BoardLengthMM }),
		figure("base.boardWidthMM", unit.Length, 0, 5000, 10, boarded,
			func(j *Job) *float64 { return &j.Base.BoardWidthMM }),
		figure("base.keepZoneMM", unit.Along, 0, 5000, 10, boarded,
			func(j *Job) *float64 { return &j.Base.KeepZoneMM }),
		perhaps("base.cutAtStartMM", unit.Along, 0, 5000, func(j *Job) **float64 { return &j.Base.CutAtStartMM }).
			when(func(j *Job) bool { return j.Base.KeepZoneMM > 0 && !j.Base.Screed }),
		figure("base.ledgerWidthMM", unit.Length, 0, 150, 1, letIn,
			func(j *Job) *float64 { return &j.Base.LedgerWidthMM }),
		figure("base.ledgerDepthMM", unit.Length, 0, 200, 1, letIn,
			func(j *Job) *float64 { return &j.Base.LedgerDepthMM }),
		figure("base.nogginSpacingMM", unit.Length, 0, 3000, 10, letIn,
			func(j *Job) *float64 { return &j.Base.NogginSpacingMM }),
	}
}

// formerInputs are the less used ones of what carries the fall.
func formerInputs() []Input {
	return []Input{
		shelved("parts.former", asEntered,
			func(_ *Job, s *part.Shelf) []part.Former { return s.Formers }, func(j *Job) *part.Former { return j.Parts.Former }),
		pick("former.ends", EndsKinds(), func(j *Job) *EndsKind { return &j.Former.Ends }).when(func(j *Job) bool { return linear(*j) }),
		figure("former.endSlope", unit.Slope, 0, 0.25, 0.001, endsFall,
			func(j *Job) *float64 { return &j.Former.EndSlope }),
		figure("former.thicknessAtDrainMM", unit.Length, 0.5, 300, 1, nil,
			func(j *Job) *float64 { return &j.Former.ThicknessAtDrainMM }),
		figure("former.bedMM", unit.Length, 0, 30, 0.5, nil,
			func(j *Job) *float64 { return &j.Former.BedMM }),
		figure("former.longestMM", unit.Length, 0, 10000, 10, nil,
			func(j *Job) *float64 { return &j.Former.LongestMM }),
		figure("former.widestMM", unit.Length, 0, 10000, 10, nil,
			func(j *Job) *float64 { return &j.Former.WidestMM }),
	}
}

// trapInputs are the less used ones of the drain with its trap.
func trapInputs() []Input {
	return []Input{
		figure("drain.offsetMM", unit.Along, -5000, 5000, 10, nil,
			func(j *Job) *float64 { return &j.Drain.OffsetMM }),
		perhaps("drain.forwardMM", unit.Along, 0, 20000, func(j *Job) **float64 { return &j.Drain.ForwardMM }).
			when(func(j *Job) bool { return !j.Former.Fall.Linear() || j.Former.Fall == FallMid }),
		figure("drain.wallClearanceMM", unit.Along, 0, 500, 1, keepsOff,
			func(j *Job) *float64 { return &j.Drain.WallClearanceMM }),
		figure("drain.widthMM", unit.Length, 20, 600, 1, nil,
			func(j *Job) *float64 { return &j.Drain.WidthMM }),
		numbers(SoldLengthsKey, unit.Column{Kind: unit.Length, Least: 50, Greatest: 6000}, 1, part.MostBoards, []float64{600, 800, 1000},
			func(j *Job) *[]float64 { return &j.Drain.SoldLengthsMM }, inOrder).when(func(j *Job) bool { return linear(*j) }),
		figure("drain.trapOffsetMM", unit.Along, -3000, 3000, 10, linear,
			func(j *Job) *float64 { return &j.Drain.TrapOffsetMM }),
		figure("drain.trapDepthMM", unit.Length, 10, 600, 1, nil,
			func(j *Job) *float64 { return &j.Drain.TrapDepthMM }),
		figure("drain.trapSizeMM", unit.Length, 40, 500, 1, nil,
			func(j *Job) *float64 { return &j.Drain.TrapSizeMM }),
		figure("drain.outletInvertDepthMM", unit.Length, 5, 500, 1, nil,
			func(j *Job) *float64 { return &j.Drain.OutletInvertDepthMM }),
		figure("drain.outletNominalMM", unit.Length, 20, 200, 1, nil,
			func(j *Job) *float64 { return &j.Drain.OutletNominalMM }),
		figure("drain.outletTurnDeg", unit.Angle, -360, 360, 90, nil,
			func(j *Job) *float64 { return &j.Drain.OutletTurnDeg }),
		figure("drain.bedUnderMM", unit.Length, 0, 50, 0.5, nil,
			func(j *Job) *float64 { return &j.Drain.BedUnderMM }),
		figure("drain.leastFormerMM", unit.Length, 0, 100, 1, nil,
			func(j *Job) *float64 { return &j.Drain.LeastFormerMM }),
		figure("drain.channelDepthMM", unit.Length, 0, 300, 1, nil,
			func(j *Job) *float64 { return &j.Drain.ChannelDepthMM }),
		figure("drain.coverLeastMM", unit.Length, 0, 200, 1, nil,
			func(j *Job) *float64 { return &j.Drain.CoverLeastMM }),
		figure("drain.coverGreatestMM", unit.Length, 0, 300, 1, nil,
			func(j *Job) *float64 { return &j.Drain.CoverGreatestMM }),
		figure("drain.weirDepthMM", unit.Length, 1, 500, 1, nil,
			func(j *Job) *float64 { return &j.Drain.WeirDepthMM }),
		figure("drain.sealMM", unit.Length, 0, 200, 1, nil,
			func(j *Job) *float64 { return &j.Drain.SealMM }),
		figure("drain.passageMM", unit.Length, 0, 200, 1, nil,
			func(j *Job) *float64 { return &j.Drain.PassageMM }),
		figure("drain.outletJointMM", unit.Length, 0, 300, 1, nil,
			func(j *Job) *float64 { return &j.Drain.OutletJointMM }),
		figure("drain.outletJointOutsideMM", unit.Length, 20, 300, 0.5, nil,
			func(j *Job) *float64 { return &j.Drain.OutletJointOutsideMM }),
		figure("drain.capacityLPS", unit.Flow, 0, 20, 1.0/60, nil,
			func(j *Job) *float64 { return &j.Drain.CapacityLPS }),
		figure("drain.capacityHeadMM", unit.Length, 1, 200, 1, nil,
			func(j *Job) *float64 { return &j.Drain.CapacityHeadMM }),
		dataSheet(),
	}
}

// dataSheet are further points of the trap's data sheet.
func dataSheet() Input {
	return Input{Key: CapacityCurveKey, Table: &Table{key: CapacityCurveKey, Most: mostCurve, usual: nextPoint,
		Columns: []Column{column(".headMM", unit.Length, 0, mostHeadMM, 1), column(".flowLPS", unit.Flow, 0, mostFlowLPS, 1.0/60)},
		get: func(j *Job) [][]float64 {
			var out [][]float64
			for _, p := range j.Drain.CapacityCurve {
				out = append(out, []float64{p.HeadMM, p.FlowLPS})
			}
			return out
		},
		set: func(j *Job, rows [][]float64) {
			j.Drain.CapacityCurve = nil
			for _, v := range rows {
				j.Drain.CapacityCurve = append(j.Drain.CapacityCurve, part.HeadFlow{HeadMM: v[0], FlowLPS: v[1]})
			}
		}}}
}

// nextPoint is a point of the data sheet a little more than the last, or the one that is stated by itself.
func nextPoint(j *Job) []float64 {
	const moreMM = 5
	head, flow := j.Drain.CapacityHeadMM, j.Drain.CapacityLPS
	if n := len(j.Drain.CapacityCurve); n > 0 {
		last := j.Drain.CapacityCurve[n-1]
		head, flow = last.HeadMM+moreMM, last.FlowLPS
	}
	return []float64{math.Min(head, mostHeadMM), flow}
}

// The keys of inputs of the way out that the window or an edit treats in a way of its own.
const (
	PipeSizeKey   = "parts.pipe.size"
	ExitStackKey  = "waste.exit.stack"
	ExitLevelKey  = exitLevelKey
	ExitInvertKey = "waste.exit.level.invertMM"
	FittingsKey   = "waste.fittings"
)

// wayOutInputs are those of the waste run and of where it leaves.
func wayOutInputs() []Input {
	return append(
		rows(StationWayOut, true,
			pick("waste.exit.kind", ExitKinds(), func(j *Job) *ExitKind { return &j.Waste.Exit.Kind }),
			wallOf(ExitWallKey, func(j *Job) *int { return &j.Waste.Exit.Wall }).when(leavesBy(ExitWall)),
			figure("waste.exit.offsetMM", unit.Along, 0, 50000, 10, func(j Job) bool { return j.Waste.Exit.Kind == ExitWall },
				func(j *Job) *float64 { return &j.Waste.Exit.OffsetMM }),
			exitAt(),
			exitStack(),
			figure("waste.exit.nominalMM", unit.Length, 0, 250, 1, func(j Job) bool { return j.Waste.Exit.Kind == ExitPipe },
				func(j *Job) *float64 { return &j.Waste.Exit.NominalMM }),
			exitInvert(),
			shelved("parts.pipe", asEntered,
				func(_ *Job, s *part.Shelf) []part.PipeSystem { return s.Pipes }, func(j *Job) *part.PipeSystem { return j.Parts.Pipe }),
			pipeSize(),
			figure("waste.gradient", unit.Slope, -0.5, 1, 0.001, fallStated,
				func(j *Job) *float64 { return &j.Waste.Gradient }),
			things(pumpList()).when(func(j *Job) bool { return j.Waste.Exit.Kind == ExitPump || j.Waste.Pump != nil })),
		rows(StationWayOut, false,
			exitLevel(),
			placesInPlan(TurnsKey, 0, mostItems, func(j *Job) *[]plan.Point { return &j.Waste.Waypoints }, nil),
			things(fittingList()),
			things(ventList()),
			things(beyondList()).when(func(j *Job) bool { return j.Waste.Exit.Kind == ExitWall || j.Waste.Beyond != nil }),
			things(drillList()).when(func(j *Job) bool { return j.Waste.Exit.Kind == ExitWall || j.Waste.Drill != nil }),
			things(boxingList()),
			figure("waste.holeRoomMM", unit.Length, 1, 100, 1, func(j Job) bool { return j.Waste.Exit.Kind != ExitPipe },
				func(j *Job) *float64 { return &j.Waste.HoleRoomMM }),
			figure("waste.clearUnderMM", unit.Length, 0, 50, 0.5, nil,
				func(j *Job) *float64 { return &j.Waste.ClearUnderMM }),
			figure("waste.nominalMM", unit.Length, 20, 200, 1, nil,
				func(j *Job) *float64 { return &j.Waste.NominalMM }),
			figure("waste.outsideDiameterMM", unit.Length, 20, 250, 0.1, nil,
				func(j *Job) *float64 { return &j.Waste.OutsideDiameterMM }),
			figure("waste.boreMM", unit.Length, 10, 240, 0.1, nil,
				func(j *Job) *float64 { return &j.Waste.BoreMM }),
			figure("waste.socketOutsideMM", unit.Length, 20, 300, 0.5, nil,
				func(j *Job) *float64 { return &j.Waste.SocketOutsideMM }),
			figure("waste.insertionMM", unit.Length, 0, 300, 1, nil,
				func(j *Job) *float64 { return &j.Waste.InsertionMM }),
			figure("waste.bend45FaceMM", unit.Length, 1, 300, 1, nil,
				func(j *Job) *float64 { return &j.Waste.Bend45FaceMM }),
			figure("waste.bend90FaceMM", unit.Length, 1, 500, 1, nil,
				func(j *Job) *float64 { return &j.Waste.Bend90FaceMM }))...)
}

// leavesBy tells that the waste leaves in a way.
func leavesBy(k ExitKind) func(*Job) bool {
	return func(j *Job) bool { return j.Waste.Exit.Kind == k }
}

// ExitInPlan tells that the exit has a place of its own in plan.
func (j *Job) ExitInPlan() bool {
	k := j.Waste.Exit.Kind
	return k == ExitFloor || k == ExitPipe || k == ExitPump
}

// exitAt is the place in plan of an exit that is in no wall.
func exitAt() Input {
	return Input{Key: ExitAtKey, uses: (*Job).ExitInPlan, Table: &Table{
		key: ExitAtKey, Columns: inPlan(""), Fewest: 1, Most: 1,
		get: func(j *Job) [][]float64 { return [][]float64{{j.Waste.Exit.At.X(), j.Waste.Exit.At.Y()}} },
		set: func(j *Job, rows [][]float64) { j.Waste.Exit.At = plan.Point{rows[0][0], rows[0][1]} }}}
}

// exitStack is the stack that the waste goes into.
func exitStack() Input {
	return Input{Key: ExitStackKey, uses: leavesBy(ExitStack), Choice: &Choosing{
		Options: func(j *Job, _ *part.Shelf) []Option {
			out := make([]Option, len(j.Room.Stacks))
			for i := range out {
				out[i] = Option{strconv.Itoa(i), message.Of("item.room.stacks", message.No("n", i+1))}
			}
			return out
		},
		At: func(j *Job) string { return strconv.Itoa(j.Waste.Exit.Stack) }}}
}

// exitLevel is what is known of the exit's level; exitInvert is the level itself. One that is typed
// where none is known holds exactly, and one that is taken away leaves it free.
func exitLevel() Input {
	return selection(exitLevelKey, ExitLevelKinds().Options(), func(j *Job) string { return string(j.Waste.Exit.Level.Kind()) }, nil)
}

func exitInvert() Input {
	return Input{Key: ExitInvertKey, Maybe: &Optional{Kind: unit.Length, Least: -20000, Greatest: 5000,
		At: func(j *Job) (float64, bool) { return j.Waste.Exit.Level.InvertMM() },
		set: func(j *Job, mm *float64) {
			to := &j.Waste.Exit.Level
			switch {
			case mm == nil:
				*to = ExitLevel{}
			case to.Kind() == ExitFree:
				*to = Exactly(*mm)
			default:
				*to = to.At(*mm)
			}
		}}}
}

// pipeSize is the size of the system of pipe that is chosen, as it is called. Of a size that the
// system has not, or without one, the numbers are those entered.
func pipeSize() Input {
	sizes := func(j *Job) []part.PipeSize {
		if j.Parts.Pipe == nil {
			return nil
		}
		return j.Parts.Pipe.Sizes
	}
	return Input{Key: PipeSizeKey, uses: func(j *Job) bool { return j.Parts.Pipe != nil }, Choice: &Choosing{
		Options: func(j *Job, _ *part.Shelf) []Option {
			var out []Option
			for _, z := range sizes(j) {
				out = append(out, Option{SizeValue(z.NominalMM), z.Name()})
			}
			return append(out, Option{"", message.Of(asEntered)})
		},
		At: func(j *Job) string {
			for _, z := range sizes(j) {
				if z.NominalMM == j.Waste.NominalMM {
					return SizeValue(z.NominalMM)
				}
			}
			return ""
		}}}
}

// SizeValue is a size of pipe as a value of PipeSizeKey.
func SizeValue(nominalMM float64) string { return strconv.FormatFloat(nominalMM, 'g', -1, 64) }
