package sheet

import (
	"underfall/app/pen"
	"underfall/geometry/placing"
)

// block is a piece of a sheet that stays on one page: so high, drawn from its upper left corner.
type block struct {
	high float64
	draw func(to pen.Pen, at placing.Point)
	// keep holds it on the page of what follows, as a heading's.
	keep bool
	// again is what stands over it where it begins a page, as a table's head over its later rows; nil for nothing.
	again *block
}

// gap is a block of nothing, which a page does not begin with.
func gap(high float64) block { return block{high: high} }

// beside are columns of blocks side by side, each from where it begins.
func beside(columns ...column) block {
	var out block
	for _, c := range columns {
		out.high = max(out.high, c.high())
	}
	out.draw = func(to pen.Pen, at placing.Point) {
		for _, c := range columns {
			y := at[1]
			for _, b := range c.blocks {
				if b.draw != nil {
					b.draw(to, placing.Point{at[0] + c.left, y})
				}
				y += b.high
			}
		}
	}
	return out
}

type column struct {
	left   float64
	blocks []block
}

func (c column) high() (sum float64) {
	for _, b := range c.blocks {
		sum += b.high
	}
	return sum
}

// paged are blocks on pages, each so high, one under the other: what is kept together goes on together. A block that
// is higher than a page has one to itself and runs out of it.
func paged(blocks []block, high float64) [][]block {
	var pages [][]block
	var page []block
	y := 0.0
	for i := 0; i < len(blocks); {
		n, together := 1, blocks[i].high
		for blocks[i+n-1].keep && i+n < len(blocks) {
			together += blocks[i+n].high
			n++
		}
		if y > 0 && y+together > high {
			pages, page, y = append(pages, page), nil, 0
		}
		if again := blocks[i].again; again != nil && len(page) == 0 {
			page, y = append(page, *again), again.high
		}
		if len(page) > 0 || blocks[i].draw != nil || n > 1 {
			page = append(page, blocks[i:i+n]...)
			y += together
		}
		i += n
	}
	if len(page) > 0 {
		pages = append(pages, page)
	}
	return pages
}
