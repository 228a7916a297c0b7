package geometry_test

import (
	"slices"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// oneClash is what has no number to be halved: a change that raises a rule, and the nearest that does
// not, the demo itself where none is named.
type oneClash struct {
	rule          string
	demo          int
	change, quiet func(*job.Job)
}

func TestEveryClashIsFound(t *testing.T) {
	for _, c := range slices.Concat(clashesOfTheRun(), clashesOfJoists(), clashesByCode(), clashesOfPlaces(), clashesBeyond()) {
		j, quiet := demo(t, c.demo), demo(t, c.demo)
		c.change(&j)
		isFound(t, c.rule, j)
		switch {
		case c.quiet != nil:
			c.quiet(&quiet)
		case c.rule == "c-structure":
			quiet = demo(t, slab)
		}
		if _, _, raised := finding(t, c.rule, quiet); raised {
			t.Errorf("%s is raised without what raises it", c.rule)
		}
	}
}

// clashesOfTheRun are what the run meets on its way.
func clashesOfTheRun() []oneClash {
	fallingPiece := func(atMM float64, reversed bool) func(*job.Job) {
		return func(j *job.Job) {
			j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece,
				AtMM: atMM, LengthMM: 120, Slope: 0.05, Reversed: reversed}}
		}
	}
	return []oneClash{
		{"backfall", slab, fallingPiece(100, true), fallingPiece(100, false)},
		{"fitting-misplaced", slab, fallingPiece(3000, false), fallingPiece(100, false)},
		{"run-nothing", slab, func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{645, 1832}} },
			func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{643, 1832}} }},
		{"uk-bends", slab, func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{400, 1832}, {400, 1500}, {200, 1500}, {200, 1200}}
			j.Waste.Exit.OffsetMM = 700
		}, func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{400, 1832}, {400, 1200}}
			j.Waste.Exit.OffsetMM = 700
		}},
		{"turn-off", slab, func(j *job.Job) { j.Waste.Waypoints = []plan.Point{{400, 1832}}; j.Waste.Exit.OffsetMM = 300 },
			func(j *job.Job) { j.Waste.Waypoints = []plan.Point{{400, 1832}}; j.Waste.Exit.OffsetMM = 468 }},
		{"pipe-exposed", slab, func(j *job.Job) {
			j.Drain.OutletTurnDeg = 0
			j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}
		}, func(j *job.Job) {
			j.Drain.OutletTurnDeg, j.Room.Edge = 0, job.EdgeRaiseRoom
			j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}
		}},
		{"clash-joist", letIn, func(j *job.Job) { // turns within joist 5
			j.Waste.Waypoints = []plan.Point{{560, 1932}, {560, 1840}, {300, 1840}, {300, 1932}}
		}, nil},
	}
}

// clashesOfJoists are what joists, cut or not, meet.
func clashesOfJoists() []oneClash {
	across := func(region string) func(*job.Job) {
		return func(j *job.Job) { j.Region = region; demotest.AcrossJoists(j, 150) }
	}
	uncut := func(region string) func(*job.Job) { return func(j *job.Job) { j.Region = region } }
	return []oneClash{
		{"uk-joist-engineered", letIn, func(j *job.Job) { across("UK")(j); j.Floor.Joists.Engineered = true }, across("UK")},
		{"uk-joist-engineered", letIn, func(j *job.Job) { across("UK")(j); j.Floor.Joists.Engineered = true },
			func(j *job.Job) { j.Floor.Joists.Engineered = true }},
		{"us-joist-engineered", letIn, func(j *job.Job) { across("US")(j); j.Floor.Joists.Engineered = true }, across("US")},
		{"joist-engineered", letIn, func(j *job.Job) { across("AU")(j); j.Floor.Joists.Engineered = true }, across("AU")},
		{"opening-askew", letIn, func(j *job.Job) { j.Floor.Joists.DirectionDeg += 0.6 },
			func(j *job.Job) { j.Floor.Joists.DirectionDeg += 0.5 }},
		// Nothing lies in an opening in joist 4 amid the room; the run crosses joist 5.
		{"trimmed-idle", letIn, func(j *job.Job) { j.Floor.Joists.Trims = []job.Trim{{Joist: 4, FromMM: 700, ToMM: 1300}} }, nil},
		{"trimmed-joist", letIn, func(j *job.Job) { j.Floor.Joists.Trims = []job.Trim{{Joist: 4, FromMM: 700, ToMM: 1300}} }, nil},
		{"joist-grade", letIn, func(j *job.Job) { j.Floor.Joists.Timber = nil }, func(j *job.Job) { j.Floor.Joists.Timber = sprucePineFir() }},
		{"au-joist", letIn, across("AU"), uncut("AU")},
		{"nz-joist", letIn, across("NZ"), uncut("NZ")},
		{"de-joist", letIn, across("DE"), uncut("DE")},
	}
}

// clashesByCode are what one code asks for and another does not, and lips.
func clashesByCode() []oneClash {
	return []oneClash{
		{"reserve", slab, func(*job.Job) {}, wallToWall},
		// Nobody trips over a lip under glass.
		{"edge-lip", slab, func(j *job.Job) { wallToWall(j); keepFinish(j, 120) },
			func(j *job.Job) { wallToWall(j); keepFinish(j, 120); paneInFront(j, 2374) }},
		{"c-structure", letIn, func(*job.Job) {}, nil},
		{"nz-point-load", letIn, func(j *job.Job) { j.Region = "NZ" }, nil},
		{"nz-consent", slab, func(j *job.Job) { j.Region = "NZ" }, nil},
		{"us-vent-none", slab, func(j *job.Job) { j.Region = "US" },
			func(j *job.Job) { j.Region, j.Waste.Vent = "US", &job.Vent{NominalMM: 40} }},
		{"us-vent-none", slab, func(j *job.Job) { j.Region = "US-UPC" }, func(j *job.Job) { // the stack is the vent
			intoStack(j, job.Stack{NominalMM: 110})
			j.Region = "US-UPC"
		}},
		{"us-gully", slab, func(j *job.Job) { j.Region = "US"; gullyOutside(j, 100, -100) }, func(j *job.Job) {
			j.Region, j.Waste.Beyond = "US", &job.Beyond{Joins: job.JoinDrain}
		}},
		{"us-scald", slab, func(j *job.Job) { j.Region = "US" }, nil},
		{"us-cover", slab, func(j *job.Job) { j.Region = "US" }, nil},
		{"au-bond", slab, func(j *job.Job) { j.Region = "AU" }, nil},
		// A gully's own water holds the smell back as well.
		{"uk-seal", slab, func(j *job.Job) { j.Drain.SealMM = 40 }, func(j *job.Job) { gullyOutside(j, 100, -100); j.Drain.SealMM = 40 }},
		// Down into the shower by as much as its code wants is no lip there, but it is elsewhere.
		{"edge-lip", slab, func(j *job.Job) { wallToWall(j); keepFinish(j, 165) },
			func(j *job.Job) { j.Region = "AU"; wallToWall(j); keepFinish(j, 165) }},
	}
}

// clashesOfPlaces are what a place or a thing in it asks for.
func clashesOfPlaces() []oneClash {
	return []oneClash{
		{"uk-access", slab, func(*job.Job) {}, func(j *job.Job) { j.Region = "IE" }},
		{"uk-sc-drainage", slab, func(j *job.Job) { j.Region = "UK-SC" }, func(j *job.Job) { j.Region = "UK-EN" }},
		{"uk-wa-drainage", slab, func(j *job.Job) { j.Region = "UK-WA" }, func(j *job.Job) { j.Region = "UK-SC" }},
		{"uk-ni-drainage", slab, func(j *job.Job) { j.Region = "UK-NI" }, func(j *job.Job) { j.Region = "UK" }},
		{"uk-timber-warranty", letIn, func(*job.Job) {}, func(j *job.Job) { j.Region = "IE" }},
		{"c-membrane", slab, withMembrane(job.OutShower), withMembrane(job.OutNowhere)},
		{"uk-heating", slab, func(j *job.Job) { j.Layers.Room.Under = []job.Course{{Kind: job.CourseHeating}} }, func(j *job.Job) {
			j.Layers.Wall.Under = []job.Course{{Kind: job.CourseLining}}
		}},
		{"c-set-down", slab, func(j *job.Job) { j.Floor.SetDownMM = 40 }, func(*job.Job) {}},
		{"deck-edge", letIn, func(*job.Job) {}, func(j *job.Job) { j.Base.NogginSpacingMM = 600 }},
		{"c-cavity", slab, func(j *job.Job) {
			w := &j.Room.Walls[3]
			w.Kind, w.ThicknessMM, w.InnerLeafMM, w.CavityMM = job.WallCavity, 300, 100, 100
		}, nil},
		{"c-slab-drop", slab, func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{300, 1832}} }, nil},
		// The slab's run ends outside at some tens of millimetres over its floor, well under 100 and over -100.
		{"c-dig", slab, func(j *job.Job) {
			j.Room.Walls[3].OutsideGroundMM, j.Waste.Beyond = num(100), &job.Beyond{Joins: job.JoinDrain, LengthMM: 500}
		}, func(j *job.Job) { j.Room.Walls[3].OutsideGroundMM = num(-100) }},
		{"c-pipe-outside", slab, func(j *job.Job) { j.Room.Walls[3].OutsideGroundMM = num(-100) }, func(j *job.Job) {
			j.Room.Walls[3].OutsideGroundMM, j.Waste.Beyond = num(100), &job.Beyond{Joins: job.JoinDrain, LengthMM: 500}
		}},
		{"c-next-room", slab, func(j *job.Job) { j.Room.Walls[3].OutsideGroundMM = nil }, func(j *job.Job) { j.Room.Walls[3].OutsideGroundMM = num(-100) }},
		{"c-services", slab, func(*job.Job) {}, func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 1832}} }},
	}
}

// clashesBeyond are what comes of a pump, of what lies beyond the room, and of what is idle.
func clashesBeyond() []oneClash {
	return []oneClash{
		{"c-pump", slab, func(j *job.Job) { intoPump(j, 900, 0.4) }, nil},
		{"pump-unknown", slab, func(j *job.Job) { intoPump(j, 900, 0.4); j.Waste.Pump = nil }, func(j *job.Job) { intoPump(j, 900, 0.4) }},
		{"pump-unknown", slab, func(j *job.Job) { intoPump(j, 900, 0.4); j.Waste.Pump.DischargeMM = nil },
			func(j *job.Job) { intoPump(j, 900, 0.4) }},
		{"beyond-unknown", slab, func(*job.Job) {}, func(j *job.Job) { j.Waste.Beyond = &job.Beyond{Joins: job.JoinDrain} }},
		{"gully-way-down", slab, func(j *job.Job) { j.Waste.Beyond = &job.Beyond{Joins: job.JoinGully, LengthMM: 150} },
			func(j *job.Job) { gullyOutside(j, 100, -100) }},
		{"beyond-no-outside", slab, func(j *job.Job) {
			j.Waste.Beyond, j.Room.Walls[3].OutsideGroundMM = &job.Beyond{Joins: job.JoinGully, LengthMM: 150}, nil
		}, func(j *job.Job) { j.Waste.Beyond = &job.Beyond{Joins: job.JoinGully, LengthMM: 150} }},
		{"beyond-no-outside", slab, func(j *job.Job) {
			j.Waste.Beyond, j.Room.Walls[3].OutsideGroundMM = &job.Beyond{Joins: job.JoinDrain, LengthMM: 150}, nil
		}, func(j *job.Job) { // the stack may stand in the next room
			j.Waste.Beyond, j.Room.Walls[3].OutsideGroundMM = &job.Beyond{Joins: job.JoinStack, LengthMM: 150}, nil
		}},
		{"beyond-assumed", slab, func(j *job.Job) {
			j.Waste.Beyond = &job.Beyond{Joins: job.JoinDrain}
			j.SetStanding("waste.beyond.joins", job.Assumed)
		}, func(j *job.Job) { j.Waste.Beyond = &job.Beyond{Joins: job.JoinDrain} }},
		{"pump-unknown", slab, func(j *job.Job) {
			intoPump(j, 900, 0.4)
			j.SetStanding("waste.pump.flowLPS", job.Assumed)
		}, func(j *job.Job) { intoPump(j, 900, 0.4) }},
		{"kerb-idle", slab, func(j *job.Job) { kerbInUS(j, 50); j.Former.Fall = job.FallRoom }, func(j *job.Job) { kerbInUS(j, 50) }},
		{"course-nothing", slab, func(j *job.Job) { j.Base.Under = []job.Course{{Kind: job.CourseLevelling}} }, func(j *job.Job) {
			j.Base.Under = []job.Course{{Kind: job.CourseLevelling, Layer: job.Layer{ThicknessMM: 5}}}
		}},
		{"au-kerb", slab, func(j *job.Job) { kerbInUS(j, 50); j.Region = "AU" }, func(j *job.Job) { j.Region = "AU" }},
	}
}
