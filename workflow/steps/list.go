package steps

import "drillstop/workflow"

// All returns the steps of the whole job in the order in which the hands do
// them. Adding a step is adding its declaration here.
func All() []workflow.Step {
	return []workflow.Step{
		skierStep(), bootsStep(), skisStep(), bindingStep(), fitStep(),
		oldHolesStep(), mountPointStep(), templateStep(),
		bitStep(), holesStep(), cleanStep(),
		glueStep(), screwsStep(), brakeStep(),
		soleLengthStep(), forwardPressureStep(), toeHeightStep(), releaseValueStep(),
		releaseTestStep(), correctionStep(), recenteringStep(), touringStep(),
		lastLookStep(), handOverStep(),
	}
}

// Checklist returns the whole job as a checklist. An error is a flaw of the
// declarations, which a test rules out.
func Checklist() (*workflow.Checklist, error) { return workflow.NewChecklist(All()...) }

// Describe names a job in a list: by its skier, ski and binding, each "" until
// it was answered.
func Describe(job workflow.Job) (skier, ski, binding string) {
	return job.Text(Skier, "name", workflow.Both), job.Text(Skis, "name", workflow.Both), job.Text(Binding, "name", workflow.Both)
}
