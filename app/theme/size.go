package theme

// Sizes of text, in Fyne's units.
const (
	TextLayer    = 11 // layer words at the rods, readings in a plan, second lines under swatches; nothing else is so small
	TextCaption  = 12
	TextSecond   = 13 // second text, buttons
	TextBody     = 14
	TextField    = 15 // what stands in a field
	TextHeading  = 16 // of a card or list
	TextTray     = 18 // heading of a tray
	TextHeadline = 20
	TextFigure   = 26 // figures in the answer plate
	TextStep     = 34 // the step in front of a customer
	TextReading  = 72 // the reading on site
)

// larger is a size of text a step up in the table.
func larger(size float32) float32 {
	switch size {
	case TextHeading:
		return 18
	case TextTray:
		return 20
	case TextHeadline:
		return 22
	case TextFigure, TextStep:
		return size + 2
	case TextReading:
		return 80
	}
	return size + 1
}

// Distances between things, in Fyne's units.
const (
	Space1 = 4 * (iota + 1)
	Space2
	Space3
	Space4
)

// Larger distances.
const (
	Space6 = 24
	Space8 = 32
)

// Shape of sheets, fields and buttons, in Fyne's units.
const (
	Radius      = 6 // of sheets, fields, buttons
	PlateRadius = 3 // of plates in drawings
	EdgeWidth   = 1
	FocusWidth  = 2 // of focus, selection, a held choice
	StandWidth  = 5 // of the left edge that tells a standing, or that a value is held
	PressHeight = 36
	SmallHeight = 32
	LargeHeight = 44 // of what is pressed with gloves on
	BetweenTwo  = 6  // between two things to press, at least
	// What is left free inside of buttons and round lines of text, usually and where all is large.
	InnerSpace, LargeInnerSpace = 7, 13
)
