//go:build !nowindow

package command

import (
	"fmt"
	"io"
	"os"

	"underfall/app"
	"underfall/app/words"
	"underfall/geometry/message"
)

// opens opens the window, and pictures draws pictures in space.
func opens() doing    { return window }
func pictures() doing { return render }

func window(args []string, b words.Book, errs io.Writer) int {
	flags := options("underfall", b, errs)
	var o app.Options
	var logFile, size string
	flags.BoolVar(&o.Dark, "dark", false, "")
	demo := flags.Bool("demo", false, "")
	flags.StringVar(&size, "size", "", "")
	flags.StringVar(&logFile, "log", "", "")
	flags.StringVar(&o.ConfigFolder, "config", "", "")
	files, ok := parseMixed(flags, args)
	switch {
	case !ok:
		return exitBad
	case len(files) > 1:
		tell(errs, b, message.Fail("cli.one-job"))
		return exitBad
	case len(files) == 1:
		o.File = files[0]
	}
	o.StartPage = !*demo
	if size != "" {
		if n, err := fmt.Sscanf(size, "%fx%f", &o.Width, &o.Height); n != 2 || err != nil {
			tell(errs, b, message.Fail("cli.window-size", message.Name("given", size)))
			return exitBad
		}
	}
	if logFile != "" {
		f, err := os.Create(logFile)
		if err != nil {
			tell(errs, b, message.Fail("cli.log", message.Name("reason", err.Error())))
			return exitBad
		}
		defer f.Close()
		o.Log = f
	}
	if err := app.Run(o); err != nil {
		tell(errs, b, err)
		return exitBad
	}
	return exitClean
}
