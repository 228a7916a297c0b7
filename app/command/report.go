package command

import (
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/rule"
	"underfall/geometry/source"
)

// reportVersion is raised when what is printed changes its meaning or is taken away; what
// is added leaves it.
const reportVersion = 1

// report is what check prints as JSON: all that a second opinion needs. Lengths are mm,
// levels mm above the datum, flows l/s, falls rise over run, places mm in the room's
// plan and above the datum. What cannot be worked out or has no bounds is null. The
// texts are for people; ids and numbers are for programs.
type report struct {
	Version  int              `json:"version"`
	Name     string           `json:"name"`
	Region   string           `json:"region"`
	Edition  string           `json:"edition"` // of the region's rules
	Answer   reportAnswer     `json:"answer"`
	Possible reportPossible   `json:"possible"`
	Heights  reportHeights    `json:"heights"`
	Levels   []reportLevel    `json:"levels"`
	Run      *reportRun       `json:"run"` // null without one
	Joists   []reportCrossing `json:"crossings"`
	Water    reportWater      `json:"water"`
	Sealing  reportSealing    `json:"sealing"`
	Cutting  *reportCutting   `json:"cutting,omitempty"`
	Boards   *reportBoards    `json:"boards,omitempty"`
	Cards    []reportCard     `json:"cards"`
	Later    []reportCard     `json:"later"` // what may come to be; none where chances are not asked for
	Cautions []reportFinding  `json:"cautions"`
	Checks   []reportCheck    `json:"checks"`
	Chances  *reportChances   `json:"chances,omitempty"`
	Job      *job.Job         `json:"job"` // as it is settled: nothing left to be worked out
}

// reportAnswer is how the job stands.
type reportAnswer struct {
	Standing geometry.Standing `json:"standing"`
	Headline string            `json:"headline"`
	RaiseMM  float64           `json:"raiseMM"`
	Steps    []reportStep      `json:"steps"`
	// SetBy is what the height follows from, LowerMM what the base could be lower were it
	// not for that, NextBy what sets it then.
	SetBy     string  `json:"setBy"`
	LowerMM   float64 `json:"lowerMM"`
	NextBy    string  `json:"nextBy,omitempty"`
	InHundred int     `json:"inHundred"` // builds that nothing stops
	Counted   bool    `json:"counted"`   // or estimated
	// Assumed are the inputs that nobody has stated, each with what stands in for it.
	Assumed []string `json:"assumed,omitempty"`
}

type reportStep struct {
	Where string            `json:"where"`
	MM    float64           `json:"mm"`
	Kind  geometry.StepKind `json:"kind"`
}

// reportHeights are the heights that the base may have.
type reportHeights struct {
	Bare      reportHeight `json:"bare"`
	Buildable reportHeight `json:"buildable"`
	Safe      reportHeight `json:"safe"`
	Now       reportHeight `json:"now"`
	BareSetBy string       `json:"bareSetBy"`
	SetBy     string       `json:"setBy"`   // of buildable and safe
	ClearMM   float64      `json:"clearMM"` // under what sets it
}

// reportHeight is one of them: how far its top lies over the highest spot of the
// structural floor, what it is made of and the share of builds in which all fits.
type reportHeight struct {
	RaiseMM   float64   `json:"raiseMM"`
	BoardsMM  []float64 `json:"boardsMM,omitempty"` // none for one piece
	BetweenMM float64   `json:"betweenMM,omitempty"`
	Given     bool      `json:"given"` // by the boards at hand
	Fits      float64   `json:"fits"`
}

type reportLevel struct {
	ID          string          `json:"id"` // the same in every language and for every size of the job
	Label       string          `json:"label"`
	Kind        buildup.RowKind `json:"kind"`
	Value       *float64        `json:"value"` // mm, or rise over run for a fall
	Worst       float64         `json:"worst,omitempty"`
	Statistical float64         `json:"statistical,omitempty"`
	At          [3]float64      `json:"at"`
	// Layers under a finished level, from the top down.
	Layers []reportLayer `json:"layers,omitempty"`
}

// reportLayer is one layer of the floor at a place.
type reportLayer struct {
	Name        string  `json:"name"`
	ThicknessMM float64 `json:"thicknessMM"`
}

type reportRun struct {
	LengthMM float64       `json:"lengthMM"`
	ExitAtMM float64       `json:"exitAtMM"` // along the run
	Fall     float64       `json:"fall"`
	Bends    int           `json:"bends"`
	Wall     int           `json:"wall,omitempty"` // that it goes out through, as the job lists them, from one
	Letter   string        `json:"wallLetter,omitempty"`
	Pieces   []reportPiece `json:"pieces"`
}

// reportPiece is a piece of the run in the order that the water takes it.
type reportPiece struct {
	ID           string       `json:"id"`
	Name         string       `json:"name"`
	FromMM       float64      `json:"fromMM"` // along the run
	ToMM         float64      `json:"toMM"`
	OutsideMM    float64      `json:"outsideMM"`
	BoreMM       float64      `json:"boreMM"`
	TurnDeg      float64      `json:"turnDeg,omitempty"`
	FromInvertMM float64      `json:"fromInvertMM"`
	ToInvertMM   float64      `json:"toInvertMM"`
	Path         [][2]float64 `json:"path"`
}

// reportCrossing is where a piece meets a joist, along it from the joist's start.
type reportCrossing struct {
	Joist        string  `json:"joist"`
	Name         string  `json:"name"` // of the joist
	Piece        string  `json:"piece"`
	EntryMM      float64 `json:"entryMM"`
	ExitMM       float64 `json:"exitMM"`
	EntryLevelMM float64 `json:"entryLevelMM"`
	ExitLevelMM  float64 `json:"exitLevelMM"`
	RadiusMM     float64 `json:"radiusMM"`
	TopMM        float64 `json:"topMM"`
	BottomMM     float64 `json:"bottomMM"`
	SupportMM    float64 `json:"supportMM"` // to the nearest support
	SpanMM       float64 `json:"spanMM"`
}

type reportWater struct {
	FlowLPS       float64            `json:"flowLPS"`
	InletLPS      float64            `json:"inletLPS"` // of the drain's cover under the usual head
	InletHeadMM   float64            `json:"inletHeadMM"`
	TrapLPS       float64            `json:"trapLPS"`
	TrapHeadMM    float64            `json:"trapHeadMM"`
	StandsMM      *float64           `json:"standsMM"` // over the cover at the shower's flow
	SealMM        float64            `json:"sealMM"`
	SealLeftMM    float64            `json:"sealLeftMM"`
	CarriesLPS    float64            `json:"carriesLPS"`
	CarriesBy     string             `json:"carriesBy"`
	ReserveLitres float64            `json:"reserveLitres"`
	ReserveMin    *float64           `json:"reserveMin"` // null where it never spills
	FilmMM        float64            `json:"filmMM"`
	LeastFall     float64            `json:"leastFall"`
	LevelMM2      float64            `json:"levelMM2"` // of floor that does not fall
	Pieces        []reportPieceWater `json:"pieces"`
}

type reportPieceWater struct {
	Piece       string  `json:"piece"`
	DepthShare  float64 `json:"depthShare"` // of the bore
	VelocityMPS float64 `json:"velocityMPS"`
	Full        bool    `json:"full"`
}

// reportSealing is what is sealed, and with how much.
type reportSealing struct {
	TankedFloorMM2 float64 `json:"tankedFloorMM2"`
	TankedWallsMM2 float64 `json:"tankedWallsMM2"`
	OpeningsMM2    float64 `json:"openingsMM2,omitempty"` // taken off the walls
	RevealsMM2     float64 `json:"revealsMM2,omitempty"`
	UpturnMM2      float64 `json:"upturnMM2,omitempty"` // on walls beside the shower
	BoxingMM2      float64 `json:"boxingMM2,omitempty"` // up and over boxes round the run
	TapeMM         float64 `json:"tapeMM"`
	Collars        int     `json:"collars"`
	SealantMM      float64 `json:"sealantMM"`
	LongestFieldMM float64 `json:"longestFieldMM"`
	StopDoorsMM    float64 `json:"stopDoorsMM,omitempty"`   // water stops at doorways
	StopScreensMM  float64 `json:"stopScreensMM,omitempty"` // and along fixed panes
	SleeveMM       float64 `json:"sleeveMM,omitempty"`      // through both leaves of a cavity wall
	EdgeStripMM    float64 `json:"edgeStripMM,omitempty"`   // round floating and heated screeds
	HeatedMM2      float64 `json:"heatedMM2,omitempty"`
}

// reportCard is one cause with the places where it tells, the gravest first.
type reportCard struct {
	Cause    string          `json:"cause"`
	Severity rule.Severity   `json:"severity"`
	Places   []reportFinding `json:"places"`
}

type reportFinding struct {
	Rule        string        `json:"rule"`
	Severity    rule.Severity `json:"severity"`
	Stage       rule.Stage    `json:"stage,omitempty"` // of a standing caution
	Quantity    string        `json:"quantity"`
	ID          string        `json:"id"` // of what is measured
	Subject     string        `json:"subject"`
	Where       string        `json:"where"`
	At          [3]float64    `json:"at"`
	Value       *float64      `json:"value"`
	Compare     rule.Compare  `json:"compare"`
	Limit       float64       `json:"limit"`
	To          float64       `json:"to,omitempty"` // the upper of two limits
	Probability *float64      `json:"probability,omitempty"`
	Text        string        `json:"text"`
	Remedy      string        `json:"remedy"`
	Source      string        `json:"source"`
	Verified    source.Mark   `json:"verified"`
}

// reportCheck is a limit that applies, kept or not.
type reportCheck struct {
	Rule     string        `json:"rule"`
	Severity rule.Severity `json:"severity"`
	Quantity string        `json:"quantity"`
	ID       string        `json:"id"`
	Value    *float64      `json:"value"`
	Compare  rule.Compare  `json:"compare"`
	Limit    float64       `json:"limit"`
	To       float64       `json:"to,omitempty"`
	Kept     bool          `json:"kept"`
	Source   string        `json:"source"`
	Verified source.Mark   `json:"verified"`
}

// reportChances are what sampled builds came to.
type reportChances struct {
	Samples int     `json:"samples"`
	Seed    uint64  `json:"seed"`
	Fits    float64 `json:"fits"` // share in which trap and pipe fit
	// MarginMM is how much higher the base would be safe in 95 of 100 cases; less than
	// nothing where it could be lower.
	MarginMM float64        `json:"marginMM"`
	Risks    []reportChance `json:"risks"`
}

// reportChance is how likely a rule is to be broken once the job is built.
type reportChance struct {
	Rule        string  `json:"rule"`
	ID          string  `json:"id"`
	Where       string  `json:"where"`
	Planned     bool    `json:"planned"`
	Probability float64 `json:"probability"`
	Main        string  `json:"main,omitempty"`
	MainShare   float64 `json:"mainShare,omitempty"`
}
