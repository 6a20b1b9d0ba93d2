"""The one app: lower floors by kind, the top floor by place; DEVELOPERS.md holds the plan."""
