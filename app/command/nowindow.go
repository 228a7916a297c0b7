//go:build nowindow

package command

import (
	"image"
	"io"

	"underfall/app/words"
	"underfall/geometry"
)

// opens and pictures are nothing: this build has neither a window nor pictures in space, and
// so needs no graphics of the system.
func opens() doing    { return nil }
func pictures() doing { return nil }

// photograph is nothing, as such a build draws no pictures in space.
func photograph(geometry.Result, words.Book, io.Writer) (image.Image, int) { return nil, 0 }
