package command

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"underfall/app/store"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/message"
	"underfall/geometry/part"
)

// parts lists the parts at hand, writes them to a file, or takes some into the user's
// own.
func parts(args []string, b words.Book, out, errs io.Writer) int {
	flags := options("parts", b, errs)
	to, from := flags.String("export", "", ""), flags.String("import", "", "")
	config := flags.String("config", "", "")
	if err := flags.Parse(args); err != nil {
		return exitBad
	}
	if flags.NArg() > 0 || *to != "" && *from != "" {
		flags.Usage()
		return exitBad
	}
	known, err := assets.Parts()
	if err != nil {
		tell(errs, b, err)
		return exitBad
	}
	folder := store.ConfigFolder(*config)
	var done message.Message
	if *from != "" {
		done, err = store.ImportParts(folder, known, *from)
		return finish(done, err, b, out, errs)
	}
	// Those that come with Underfall are there whatever becomes of the user's own.
	own, ownErr := store.OwnParts(folder, known)
	if ownErr != nil {
		tell(errs, b, ownErr)
	}
	all := known.With(own)
	if *to != "" {
		done, err = store.ExportParts(all, *to)
	} else {
		err = listParts(all, b, out)
	}
	code := finish(done, err, b, out, errs)
	if ownErr != nil {
		return exitBad
	}
	return code
}

// finish says what has been done, or what went wrong.
func finish(done message.Message, err error, b words.Book, out, errs io.Writer) int {
	if err != nil {
		tell(errs, b, err)
		return exitBad
	}
	if !done.IsZero() {
		fmt.Fprintln(out, b.Say(done))
	}
	return exitClean
}

// listParts prints a line for each part: its kind, id and name, and where it is sold.
func listParts(all part.Shelf, b words.Book, out io.Writer) error {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	for p := range all.Each {
		about := p.Of()
		regions := strings.Join(about.Regions, " ")
		if regions == "" {
			regions = b.Text("cli.parts-everywhere")
		}
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\n", b.Text(p.Kind().Name()), about.ID, store.Plain(b.Say(part.Name(p))), regions)
	}
	return w.Flush()
}
