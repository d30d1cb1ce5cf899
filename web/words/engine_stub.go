package words

var engineSurveyFaults = map[string]wording{}
