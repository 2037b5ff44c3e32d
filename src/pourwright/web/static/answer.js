// What the bench answers, or why it does not, in its own words.
export async function answered(address, how = {}) {
  const answer = await fetch(address, { ...how, headers: { accept: "application/json" } });
  if (answer.ok) return answer;
  const { message } = await answer.json().catch(() => ({}));
  throw new Error(message ?? `the bench answered ${answer.status}`);
}
