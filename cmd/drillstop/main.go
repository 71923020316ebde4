// Drillstop walks a workshop technician through mounting, adjusting, testing
// and handing over a pair of skis: on the terminal, or by single commands.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer stop()
	code := execute(ctx, newApp(), os.Args[1:])
	stop()
	os.Exit(code)
}
