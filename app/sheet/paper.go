package sheet

import (
	"strings"

	"underfall/geometry/message"
)

// PointsPerMM is how many points of 1/72 inch a millimetre of paper has.
const PointsPerMM = 72 / 25.4

// Paper is a sheet of paper as it lies upright, by the name it is sold by.
type Paper struct {
	Key            string
	WideMM, HighMM float64
}

// Papers are all that can be printed on. A4 and A3 after ISO 216; Letter and Tabloid are 8½ × 11 and 11 × 17 inches,
// ANSI/ASME Y14.1 sizes A and B.
func Papers() []Paper {
	const inchMM = 25.4
	return []Paper{{"a4", 210, 297}, {"a3", 297, 420}, {"letter", 8.5 * inchMM, 11 * inchMM}, {"tabloid", 11 * inchMM, 17 * inchMM}}
}

// PaperOf is the paper of a key; an error names those there are.
func PaperOf(key string) (Paper, error) {
	for _, p := range Papers() {
		if p.Key == key {
			return p, nil
		}
	}
	return Paper{}, message.Fail("sheet.paper-unknown", message.Name("given", key))
}

// UsualPaper is what is in printers where a region's rules hold.
func UsualPaper(region string) Paper {
	all := Papers()
	if strings.HasPrefix(region, "US") {
		return all[2]
	}
	return all[0]
}

func (p Paper) widePoints() float64 { return p.WideMM * PointsPerMM }
func (p Paper) highPoints() float64 { return p.HighMM * PointsPerMM }

// Name is the id of what the paper is called.
func (p Paper) Name() message.ID { return message.ID("paper." + p.Key) }

// PaperIDs are the ids of the names of all papers.
func PaperIDs() (ids []message.ID) {
	for _, p := range Papers() {
		ids = append(ids, p.Name())
	}
	return ids
}
