//go:build !nowindow

package command

import (
	"io"
	"strings"
	"testing"

	"underfall/app/words"
	"underfall/geometry"
	"underfall/geometry/job"
)

// A picture is drawn in the light that the job keeps, wet or dry as that does, unless the command line says otherwise.
func TestPicturesAreAsTheJobKeepsThem(t *testing.T) {
	kept := job.Picture{Light: job.Light{Kind: job.LightDay, Hour: 9}, Wet: true}
	j := job.New()
	j.Picture = &kept
	r := geometry.Result{}
	r.Settled = j
	for args, want := range map[string]job.Picture{
		"":                                  kept,
		"-wet":                              kept,
		"-wet=false":                        {Light: kept.Light},
		"-light evening":                    {Light: job.Light{Kind: job.LightEvening, Hour: 9}, Wet: true},
		"-hour 15 -wet=false -look heights": {Light: job.Light{Kind: job.LightDay, Hour: 15}},
	} {
		q, err := renderRequest(append(strings.Fields(args), "JOB"), words.Book{}, io.Discard)
		if err != nil {
			t.Fatal(err)
		}
		if f := q.lit(r); f.Light != want.Light || f.Wet != want.Wet {
			t.Errorf("%q: light %v, wet %v, want %v", args, f.Light, f.Wet, want)
		}
	}
}
