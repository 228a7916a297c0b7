package command

import (
	"flag"
	"os"
	"strconv"
	"strings"

	"underfall/app/desk"
	"underfall/app/store"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// mostPixels bounds the pictures that may be asked for.
const mostPixels = 7680 * 4320

// pictureSize reads a width and a height with an x between, in pixels.
func pictureSize(s string) (width, height int, err error) {
	w, h, two := strings.Cut(s, "x")
	width, wrong := strconv.Atoi(w)
	height, wrongToo := strconv.Atoi(h)
	const least = 16
	fits := func(side int) bool { return side >= least && side <= mostPixels/least }
	if !two || wrong != nil || wrongToo != nil || !fits(width) || !fits(height) || width*height > mostPixels {
		return 0, 0, message.Fail("cli.size", message.Name("given", s))
	}
	return width, height, nil
}

// evaluated reads and evaluates a job under its region's rules.
func evaluated(path string) (geometry.Result, error) {
	packs, err := assets.Rules()
	if err != nil {
		return geometry.Result{}, err
	}
	j, err := read(path)
	if err != nil {
		return geometry.Result{Stated: j}, err
	}
	pack, ok := packs[j.Region]
	if !ok || j.Region == rule.CommonRegion {
		return geometry.Result{Stated: j}, desk.NoRules(j.Region, packs)
	}
	r := geometry.Evaluate(j, pack)
	if len(r.Problems) > 0 {
		return r, r.Problems
	}
	return r, nil
}

// parseMixed parses flags that may stand before or after the other arguments,
// which it gives back.
func parseMixed(flags *flag.FlagSet, args []string) (others []string, ok bool) {
	for len(args) > 0 {
		if err := flags.Parse(args); err != nil {
			return nil, false
		}
		if args = flags.Args(); len(args) > 0 {
			others = append(others, args[0])
			args = args[1:]
		}
	}
	return others, true
}

// read gets a job from a file, or standard input for "-".
func read(path string) (job.Job, error) {
	var data []byte
	var err error
	if path == "-" {
		data, err = store.ReadAll(os.Stdin, store.LargestJob)
	} else {
		data, _, err = store.Read(path, store.LargestJob)
	}
	if err != nil {
		return job.Job{}, message.Wrap(err, "cli.reading", message.Name("file", path))
	}
	return job.Parse(data)
}
