package guide

// Key names a guide value.
type Key string

// The guide values.
const (
	// Yields of powders, kg for each litre of what is made of them.
	AdhesiveYield  Key = "adhesiveYield"
	LevellingYield Key = "levellingYield"
	MortarYield    Key = "mortarYield"
	GroutYield     Key = "groutYield"
	// BeddingMM is how thick the adhesive is under mats and boards that are bedded and have no bed of
	// their own in the job.
	BeddingMM Key = "beddingMM"
	// TankingYield is of liquid tanking, kg for each litre of the dry layer.
	TankingYield Key = "tankingYield"
	// PrimerCoverage is litres for each m².
	PrimerCoverage Key = "primerCoverage"
	// Shares that are bought beyond what goes in: of what is spread or poured, of sheets and rolls
	// that are cut, of boards and timber bought by the length, and of tile by how it is laid.
	SpreadLoss      Key = "spreadLoss"
	CuttingLoss     Key = "cuttingLoss"
	TileStack       Key = "tileStack"
	TileHalf        Key = "tileHalf"
	TileThird       Key = "tileThird"
	TileHerringbone Key = "tileHerringbone"
	TileHexagon     Key = "tileHexagon"
	// TileSpare is how many whole tiles are bought besides for each place, for what breaks.
	TileSpare Key = "tileSpare"
	// SheetLap is how far sheets of tanking lap, as a share of what they cover.
	SheetLap Key = "sheetLap"
	// TapeLapMM is how far lengths of sealing tape lap each other and corner pieces.
	TapeLapMM Key = "tapeLapMM"
	// JointGapMM is a movement joint's gap where none is stated; JointDepthShare is how deep sealant
	// is as a share of its gap, JointDepthLeastMM how deep at least.
	JointGapMM        Key = "jointGapMM"
	JointDepthShare   Key = "jointDepthShare"
	JointDepthLeastMM Key = "jointDepthLeastMM"
	// ClipSpacingMM is between clips of pipe that lies along a floor; UprightSpacingMM of upright pipe.
	ClipSpacingMM    Key = "clipSpacingMM"
	UprightSpacingMM Key = "uprightSpacingMM"
	// CementJoint and CleanerJoint are litres for each socket.
	CementJoint  Key = "cementJoint"
	CleanerJoint Key = "cleanerJoint"
	// WeldPrimer is 1 where pipe is primed before it is welded, 0 where it is only cleaned.
	WeldPrimer Key = "weldPrimer"
	// LubricantJoint is litres for each socket with a ring.
	LubricantJoint Key = "lubricantJoint"
	// Spacings of screws, both ways over a board, and along timber.
	OverlayScrewMM Key = "overlayScrewMM"
	LiningScrewMM  Key = "liningScrewMM"
	LedgerScrewMM  Key = "ledgerScrewMM"
	// NogginScrews are those of one noggin.
	NogginScrews Key = "nogginScrews"
)

// Keys are all guide values.
func Keys() []Key {
	return []Key{AdhesiveYield, LevellingYield, MortarYield, GroutYield, BeddingMM, TankingYield, PrimerCoverage, SpreadLoss, CuttingLoss,
		TileStack, TileHalf, TileThird, TileHerringbone, TileHexagon, TileSpare, SheetLap, TapeLapMM, JointGapMM, JointDepthShare,
		JointDepthLeastMM, ClipSpacingMM, UprightSpacingMM, CementJoint, CleanerJoint, WeldPrimer, LubricantJoint, OverlayScrewMM,
		LiningScrewMM, LedgerScrewMM, NogginScrews}
}

// Item names what is sold in packs.
type Item string

// What is sold in packs.
const (
	Adhesive      Item = "adhesive"
	Mortar        Item = "mortar"
	Levelling     Item = "levelling"
	Grout         Item = "grout"
	TankingLiquid Item = "tanking-liquid"
	TankingSheet  Item = "tanking-sheet"
	TankingMat    Item = "tanking-mat"
	Primer        Item = "primer"
	Tape          Item = "tape"
	Sealant       Item = "sealant"
	Backing       Item = "backing"
	Insulation    Item = "insulation"
	Overlay       Item = "overlay"
	Decoupling    Item = "decoupling"
	Lining        Item = "lining"
	Pipe          Item = "pipe"
	Cement        Item = "cement"
	Cleaner       Item = "cleaner"
	Lubricant     Item = "lubricant"
	TileTrim      Item = "tile-trim"
	StopAngle     Item = "stop-angle"
	EdgeStrip     Item = "edge-strip"
	Ledger        Item = "ledger"
	Timber        Item = "timber"
	BoardScrews   Item = "board-screws"
	TimberScrews  Item = "timber-screws"
)

// Items are all that is sold in packs.
func Items() []Item {
	return []Item{Adhesive, Mortar, Levelling, Grout, TankingLiquid, TankingSheet, TankingMat, Primer, Tape, Sealant,
		Backing, Insulation, Overlay, Decoupling, Lining, Pipe, Cement, Cleaner, Lubricant, TileTrim, StopAngle, EdgeStrip, Ledger, Timber,
		BoardScrews, TimberScrews}
}
