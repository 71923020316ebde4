package steps

// The causes behind readings that are off after which more is asked in the step
// that looks at them, by their codes in calc/moment.
const (
	glidingSurface   = "gliding-surface"
	contaminatedBoot = "contaminated-boot"
	wornBinding      = "worn-binding"
)

// What a closer look found.
const (
	surfaceWorn = "worn"
	lookedSound = "sound"
	lookedWorn  = "worn"
)
