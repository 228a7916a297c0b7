package part

import (
	"math"

	"underfall/geometry/message"
	"underfall/geometry/source"
)

// Pipe is one size of pipe with what decides the room its fittings take, mm.
type Pipe struct {
	// NominalMM is what rules and people call the size by; no length of the pipe.
	NominalMM         float64 `json:"nominalMM,omitempty"`
	OutsideDiameterMM float64 `json:"outsideDiameterMM,omitempty"`
	BoreMM            float64 `json:"boreMM,omitempty"`
	// SocketOutsideMM is the outside diameter of a socket or coupling, InsertionMM
	// how deep the pipe goes into it.
	SocketOutsideMM float64 `json:"socketOutsideMM,omitempty"`
	InsertionMM     float64 `json:"insertionMM,omitempty"`
	// From the centre of a bend to the face of its socket.
	Bend45FaceMM float64 `json:"bend45FaceMM,omitempty"`
	Bend90FaceMM float64 `json:"bend90FaceMM,omitempty"`
}

// WallMM is the thickness of the pipe's wall.
func (p Pipe) WallMM() float64 { return (p.OutsideDiameterMM - p.BoreMM) / 2 }

// SocketMM is how far a socket stands out over the pipe; nothing where it has none.
func (p Pipe) SocketMM() float64 {
	return math.Max(0, (p.SocketOutsideMM-p.OutsideDiameterMM)/2)
}

// WithUsualFittings is a pipe of which only outside diameter and bore are known, with
// fittings of a size that goes with them. Common practice, no source.
func (p Pipe) WithUsualFittings() Pipe {
	const standsOutMM, insertionMM, perDiameter45, perDiameter90 = 5, 25, 0.3, 0.7
	p.SocketOutsideMM, p.InsertionMM = p.OutsideDiameterMM+2*standsOutMM, insertionMM
	p.Bend45FaceMM, p.Bend90FaceMM = insertionMM+perDiameter45*p.OutsideDiameterMM, insertionMM+perDiameter90*p.OutsideDiameterMM
	return p
}

// Joint is how pipe and fittings go together.
type Joint string

// The joints.
const (
	Solvent Joint = "solvent"  // welded by solvent cement
	PushFit Joint = "push-fit" // a rubber ring in the socket
	Nut     Joint = "nut"      // a nut with a ring, which takes pipe of more than one kind
)

// Joints are all joints; pipe is sold with the first two.
func Joints() []Joint { return []Joint{Solvent, PushFit, Nut} }

// PipeSize is a size as a system has it.
type PipeSize struct {
	Pipe
	// Called is how the size stands on the pipe: “DN 50”, “1 1/2 in”.
	Called string `json:"called"`
	// Source of outside diameter and bore; BoreSource of the bore where it has one of
	// its own; FittingSource of sockets and bends.
	Source        source.Source `json:"source"`
	BoreSource    source.Source `json:"boreSource,omitzero"`
	FittingSource source.Source `json:"fittingSource"`
}

// Reducer is a fitting between two sizes of one system whose inverts are level.
type Reducer struct {
	FromMM   float64 `json:"fromMM"` // nominal
	ToMM     float64 `json:"toMM"`   // nominal
	LengthMM float64 `json:"lengthMM"`
}

// Adaptor is a fitting from a size of the system to one of another.
type Adaptor struct {
	FromMM   float64 `json:"fromMM"` // nominal
	To       string  `json:"to"`     // id of the other system
	ToMM     float64 `json:"toMM"`   // nominal, there
	LengthMM float64 `json:"lengthMM"`
}

// PipeSystem is pipe with its fittings that go together.
type PipeSystem struct {
	About
	Joint    Joint      `json:"joint"`
	Sizes    []PipeSize `json:"sizes"` // thinnest first; at least one
	Reducers []Reducer  `json:"reducers,omitempty"`
	Adaptors []Adaptor  `json:"adaptors,omitempty"`
	// UsualMM is the nominal size that a shower is usually plumbed in, or the nearest to
	// it that there is.
	UsualMM float64 `json:"usualMM"`
	// StockMM is the length in which pipe is sold.
	StockMM float64 `json:"stockMM"`
}

// Kind of part.
func (PipeSystem) Kind() Kind { return KindPipe }

// Of is what the part says of itself.
func (s PipeSystem) Of() About { return s.About }

// Size is the system's size of a nominal diameter; ok is false where it has none.
func (s *PipeSystem) Size(nominalMM float64) (size PipeSize, ok bool) {
	for _, z := range s.Sizes {
		if z.NominalMM == nominalMM {
			return z, true
		}
	}
	return PipeSize{}, false
}

// Nearest is the system's size nearest to a nominal diameter, of a system that has any.
func (s *PipeSystem) Nearest(nominalMM float64) PipeSize {
	size := s.Sizes[0]
	for _, z := range s.Sizes {
		if math.Abs(z.NominalMM-nominalMM) < math.Abs(size.NominalMM-nominalMM) {
			size = z
		}
	}
	return size
}

// Name is how the size is written.
func (z PipeSize) Name() message.Message { return message.Text(z.Called) }
