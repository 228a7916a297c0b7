// Command mutants measures how much of the computing the tests hold: it changes
// one thing in a package under geometry, a sign, a comparison, a number, runs
// that package's own tests, and sees whether they fail. It does so for a sample
// drawn with a seed, says which changes no test noticed, and fails when too few
// were noticed. What no test covers and what does not end in time counts as not
// noticed.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/signal"
	"slices"
	"strings"
	"time"
)

// options is what is asked for on the command line.
type options struct {
	number   int
	seed     uint64
	packages string
	list     bool
	workers  int
	least    float64
}

func main() {
	var o options
	flag.IntVar(&o.number, "n", 400, "how many mutants to draw")
	flag.Uint64Var(&o.seed, "seed", 1, "what the sample is drawn with")
	flag.StringVar(&o.packages, "packages", "", "only the packages whose paths end so, with commas between")
	flag.BoolVar(&o.list, "list", false, "only list the sample")
	flag.IntVar(&o.workers, "workers", 2, "how many mutants are tested at a time")
	flag.Float64Var(&o.least, "least", 0.9, "fail when a smaller share is killed")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := run(ctx, o); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// run draws the sample, tests it and tells what came out.
func run(ctx context.Context, o options) error {
	if o.number < 1 || o.workers < 1 {
		return errors.New("-n and -workers must be at least 1")
	}
	subjects, err := load(ctx, ".", "underfall/geometry/...")
	if err != nil {
		return err
	}
	var all []mutant
	for _, s := range subjects {
		all = append(all, s.mutants()...)
	}
	known, err := parseEquivalents(equivalentText)
	if err != nil {
		return err
	}
	if err := known.checkAgainst(all); err != nil {
		return err
	}
	all = slices.DeleteFunc(all, func(m mutant) bool { return !chosen(m.of.path, o.packages) })
	if len(all) == 0 {
		return fmt.Errorf("there is nothing to change in %s", o.packages)
	}
	sample := newDraw(all, o.seed, mutant.compiles)
	if o.list {
		for range o.number {
			m, ok := sample.next()
			if !ok {
				break
			}
			fmt.Println(m)
		}
		return nil
	}
	j := judge{limit: 10 * time.Second, baselines: map[*subject]*baseline{}}
	verdicts, err := j.judgeSample(ctx, sample, o.number, o.workers)
	if err != nil {
		return err
	}
	return report(os.Stdout, verdicts, known, o.least)
}

// chosen tells whether a package is among those asked for: all when none is
// named.
func chosen(path, suffixes string) bool {
	if suffixes == "" {
		return true
	}
	return slices.ContainsFunc(strings.Split(suffixes, ","), func(s string) bool {
		return path == s || strings.HasSuffix(path, "/"+s)
	})
}
