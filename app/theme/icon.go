package theme

import "image/color"

// iconGrid is the side of the square icons are drawn in, and iconLine how wide their lines
// are.
const (
	iconGrid = 22
	iconLine = 1.9
)

// icon draws an icon: lines with round ends, nothing filled.
func (p *pen) icon(k Kind, ink color.NRGBA) {
	for _, l := range iconLines(k) {
		p.line(ink, iconLine, l...)
	}
}

// closed is a line back to where it began.
func closed(q ...at) path { return append(q, q[0]) }

// iconLines are the lines of an icon.
func iconLines(k Kind) []path {
	switch k {
	case IconUndo:
		return []path{{{9, 3}, {4, 8}, {9, 13}}, append(path{{4, 8}, {12, 8}}, append(bow(at{12, 8}, at{18, 8}, at{18, 14}), at{18, 17})...)}
	case IconRedo:
		return []path{{{13, 3}, {18, 8}, {13, 13}}, append(path{{18, 8}, {10, 8}}, append(bow(at{10, 8}, at{4, 8}, at{4, 14}), at{4, 17})...)}
	case IconShelf:
		return []path{{{2, 9}, {20, 9}}, {{2, 19}, {20, 19}}, {{4, 9}, {4, 4}, {9, 4}, {9, 9}}, {{12, 9}, {12, 6}, {18, 6}, {18, 9}},
			{{6, 19}, {6, 13}, {11, 13}, {11, 19}}, {{14, 19}, {14, 15}, {18, 15}, {18, 19}}}
	case IconPaper:
		return []path{closed(at{4, 2}, at{13, 2}, at{18, 7}, at{18, 20}, at{4, 20}), {{13, 2}, {13, 7}, {18, 7}}, {{7, 12}, {15, 12}}, {{7, 16}, {15, 16}}}
	case IconRuler:
		return []path{closed(at{2, 7}, at{20, 7}, at{20, 15}, at{2, 15}), {{6, 7}, {6, 10}}, {{10, 7}, {10, 12}}, {{14, 7}, {14, 10}}}
	case IconPlus:
		return []path{{{11, 4}, {11, 18}}, {{4, 11}, {18, 11}}}
	case IconMinus:
		return []path{{{4, 11}, {18, 11}}}
	case IconLight:
		return []path{arc(at{11, 11}, 4, 4, 0, 360), {{11, 1.5}, {11, 4}}, {{11, 18}, {11, 20.5}}, {{1.5, 11}, {4, 11}}, {{18, 11}, {20.5, 11}}}
	case IconMore:
		return []path{{{4, 11}, {4.1, 11}}, {{11, 11}, {11.1, 11}}, {{18, 11}, {18.1, 11}}}
	case IconDown:
		return []path{{{5, 8}, {11, 14}, {17, 8}}}
	case IconTick:
		return []path{{{4, 12}, {9, 17}, {18, 5}}}
	case IconClose:
		return []path{{{5, 5}, {17, 17}}, {{17, 5}, {5, 17}}}
	}
	return nil
}
