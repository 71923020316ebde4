package main

import (
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"time"
)

// durations are measured times of one kind.
type durations []time.Duration

func (d durations) print(name string) {
	sorted := slices.Sorted(slices.Values(d))
	at := func(share float64) string {
		i := min(len(sorted)-1, int(share*float64(len(sorted))))
		return fmt.Sprintf("%.1f ms", float64(sorted[i].Microseconds())/1000)
	}
	row(name, at(0.5), at(0.99), at(1), strconv.Itoa(len(sorted)))
}

func row(what, median, p99, worst, of string) {
	fmt.Printf("%-34s %10s %10s %10s %6s\n", what, median, p99, worst, of)
}

// memory returns the resident memory of a process and its peak, as the kernel
// counts them; other kernels than Linux are not asked.
func memory(pid int) (resident, peak string) {
	resident, peak = "not known", "not known"
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		return resident, peak
	}
	for line := range strings.Lines(string(status)) {
		name, value, _ := strings.Cut(line, ":")
		kb, _ := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSpace(value), " kB"), 64)
		shown := fmt.Sprintf("%.1f MB", kb*1024/1e6)
		switch name {
		case "VmRSS":
			resident = shown
		case "VmHWM":
			peak = shown
		}
	}
	return resident, peak
}
